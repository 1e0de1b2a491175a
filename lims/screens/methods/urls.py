"""Addresses of the place methods."""

from django.urls import path
from django.http import HttpRequest, HttpResponse

app_name = "methods"


def soon(request: HttpRequest) -> HttpResponse:
    return HttpResponse("")


urlpatterns = [path("", soon, name="list")]
