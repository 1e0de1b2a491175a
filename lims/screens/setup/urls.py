"""Addresses of the place set-up."""

from django.urls import path

from lims.screens.setup import people, views

app_name = "setup"
urlpatterns = [
    path("", views.show, name="list"),
    path("site/", views.change_site, name="site"),
    path("site/certificate-numbers/", views.begin_numbers, name="certificate-numbers"),
    path("people/", people.show_all, name="people"),
    path("people/new/", people.invite, name="person-new"),
    path("people/<str:account>/", people.show_one, name="person"),
    path("people/<str:account>/<slug:key>/", people.act, name="person-act"),
]
