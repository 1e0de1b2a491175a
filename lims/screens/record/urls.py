"""Addresses of the place record. A kind of two words stands in an address with a hyphen."""

from django.urls import path, register_converter

from lims.screens.record import archiving, views


class KindConverter:
    """`fill lot` as `fill-lot`."""

    regex = "[a-z]+(?:-[a-z]+)*"

    def to_python(self, value: str) -> str:
        return value.replace("-", " ")

    def to_url(self, value: str) -> str:
        return value.replace(" ", "-")


register_converter(KindConverter, "kind")

app_name = "record"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("verify/", views.verify, name="verify"),
    path("archive/", archiving.archive, name="archive"),
    path("entries/<int:seq>/", views.show_entry, name="entry"),
    path("<kind:kind>/<path:key>/", views.show_about, name="about"),
]
