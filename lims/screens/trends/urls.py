"""Addresses of the place trends. What a chart shows stands in its query string, so that an address is a view. A code of a product may hold a stroke."""

from django.urls import path

from lims.screens.trends import comparing, views

app_name = "trends"
PRODUCT = "products/<path:product>/"
ONE = f"{PRODUCT}charts/<slug:characteristic>/"
urlpatterns = [
    path("", views.show_list, name="list"),
    path(ONE, views.show_one, name="one"),
    path(f"{ONE}compare/", comparing.show, name="compare"),
    path(PRODUCT, views.show_product, name="product"),
]
