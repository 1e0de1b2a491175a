"""Addresses of the place specifications."""

from django.urls import path
from django.http import HttpRequest, HttpResponse

app_name = "specifications"


def soon(request: HttpRequest) -> HttpResponse:
    return HttpResponse("")


urlpatterns = [path("", soon, name="list")]
