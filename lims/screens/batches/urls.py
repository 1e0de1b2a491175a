"""Addresses of the place batches."""

from django.urls import path

from lims.screens.batches import entering, views

app_name = "batches"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("new/", entering.new_batch, name="new"),
    path("retains/", views.show_retains, name="retains"),
    path("samples/new/", entering.new_sample, name="sample-new"),
    path("samples/<str:number>/retain/", entering.retain, name="retain"),
    path("fill-lots/<str:number>/", views.show_lot, name="lot"),
    path(
        "fill-lots/<str:number>/without-retain/",
        entering.without_retain,
        name="without-retain",
    ),
    path("<str:number>/", views.show_batch, name="batch"),
    path("<str:number>/fill-lots/new/", entering.new_lot, name="new-lot"),
]
