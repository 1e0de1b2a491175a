"""Addresses of the place specifications. A code of a product or customer may hold a stroke."""

from django.urls import path

from lims.screens.specifications import (
    drafting,
    keeping,
    published,
    rejudged,
    symbols,
    views,
)

app_name = "specifications"
PRODUCT, CUSTOMER = "products/<path:code>/", "customers/<path:code>/"
urlpatterns = [
    path("", views.show_list, name="list"),
    path("plans/new/", keeping.add_plan, name="plan-new"),
    path("products/new/", keeping.add_product, name="product-new"),
    path(f"{PRODUCT}change/", keeping.change_product, name="product-change"),
    path(f"{PRODUCT}draft/", drafting.open_draft, name="open-draft"),
    path(PRODUCT, views.show_product, name="product"),
    path("customers/", views.show_customers, name="customer-list"),
    path("customers/new/", keeping.add_customer, name="customer-new"),
    path(f"{CUSTOMER}change/", keeping.change_customer, name="customer-change"),
    path(CUSTOMER, views.show_customer, name="customer"),
    path("symbols/", symbols.show, name="symbols"),
    path("published/", published.show_list, name="published-list"),
    path("published/<path:code>/", published.show_one, name="published"),
    path("revisions/<int:pk>/", views.show_revision, name="revision"),
    path("revisions/<int:pk>/change/", drafting.change_draft, name="draft-change"),
    path("revisions/<int:pk>/lines/new/", drafting.add_line, name="line-new"),
    path("revisions/<int:pk>/approve/", drafting.approve, name="approve"),
    path("revisions/<int:pk>/copy/", published.copy_lines, name="published-copy"),
    path("revisions/<int:pk>/preview/", rejudged.show, name="preview"),
    path("lines/<int:pk>/", drafting.change_line, name="line-change"),
    path("lines/<int:pk>/remove/", drafting.remove_line, name="line-remove"),
    path("lines/<int:pk>/origin/", published.check_origin, name="origin"),
]
