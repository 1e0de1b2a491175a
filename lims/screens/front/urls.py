"""Addresses of the place front: what belongs to no other place."""

from django.urls import path

from lims.screens.front import checking, signing, views

app_name = "front"
urlpatterns = [
    path("", views.home, name="home"),
    path("sign-in/", signing.sign_in, name="sign-in"),
    path("sign-out/", signing.sign_out, name="sign-out"),
    path("password/", signing.password, name="password"),
    path("invitation/<str:uid>/<str:token>/", signing.invitation, name="invitation"),
    path("find/", views.find, name="find"),
    path("help/", views.show_help, name="help"),
    path("theme/", views.theme, name="theme"),
    path("parts/", views.show_parts, name="parts"),
    path("check/", checking.ask, name="check"),
    path("check/<str:code>", checking.check, name="check-code"),
    path("check/<str:code>/", checking.check, name="check-code-slash"),
]
