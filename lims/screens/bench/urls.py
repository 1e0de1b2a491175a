"""Addresses of the place bench."""

from django.urls import path

from lims.screens.bench import allowing, tracing, views

app_name = "bench"
TEST = "samples/<str:number>/<slug:code>"
urlpatterns = [
    path("", views.bench, name="list"),
    path("open/", views.open_code, name="open"),
    path("samples/<str:number>/", views.sample, name="sample"),
    path("samples/<str:number>/add-test/", views.add, name="add-test"),
    path(f"{TEST}/reading/", views.reading, name="reading"),
    path(f"{TEST}/condition/", views.condition, name="condition"),
    path(f"{TEST}/set/", views.whole_set, name="set"),
    path(f"{TEST}/set/<int:place>/correct/", views.correct, name="correct"),
    path(f"{TEST}/set-aside/", views.aside, name="aside"),
    path(f"{TEST}/time/", views.time_of_reading, name="time"),
    path(f"{TEST}/allow/<int:key>/", allowing.allow, name="allow"),
    path(f"{TEST}/curve/", tracing.curve_file, name="curve"),
    path(f"{TEST}/curve/judge/", tracing.judge, name="curve-judge"),
    path(f"{TEST}/curve/<int:key>/", tracing.as_received, name="curve-received"),
]
