"""Addresses of the place instruments."""

from django.urls import path

from lims.screens.instruments import reference_views, views

app_name = "instruments"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("new/", views.add, name="new"),
    path("materials/", reference_views.materials, name="materials"),
    path("materials/new/", reference_views.add_material, name="material-new"),
    path("<str:number>/", views.show_one, name="one"),
    path("<str:number>/check/", views.record_check, name="check"),
    path("<str:number>/take-out/", views.take_out, name="take-out"),
    path("<str:number>/put-back/", views.put_back, name="put-back"),
    path("<str:number>/retire/", views.retire, name="retire"),
    path("<str:number>/chart/", reference_views.chart, name="chart"),
    path("<str:number>/reference/", reference_views.read, name="reference"),
    path("<str:number>/look-back/", reference_views.look_back, name="look-back"),
]
