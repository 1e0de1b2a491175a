"""Addresses of the place instruments."""

from django.urls import path

from lims.screens.instruments import views

app_name = "instruments"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("new/", views.add, name="new"),
    path("<str:number>/", views.show_one, name="one"),
    path("<str:number>/check/", views.record_check, name="check"),
    path("<str:number>/take-out/", views.take_out, name="take-out"),
    path("<str:number>/put-back/", views.put_back, name="put-back"),
    path("<str:number>/retire/", views.retire, name="retire"),
]
