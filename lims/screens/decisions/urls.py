"""Addresses of the place decisions."""

from django.urls import path

from lims.screens.decisions import views

app_name = "decisions"
urlpatterns = [
    path("", views.show_queue, name="list"),
    path("<str:number>/", views.show_lot, name="lot"),
    path("<str:number>/sign/", views.sign, name="sign"),
]
