"""The lists of products and of customers."""

from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from lims.drawing.icons import mark
from lims.products.models import Customer, Revision
from lims.screens.sorting import Listing
from lims.screens.specifications.presenting import ProductRow, day

NONE = format_html('<span class="note">{}</span>', "none")


def link_of(revision: Revision, words: str) -> SafeString:
    address = reverse("specifications:revision", args=[revision.pk])
    return format_html('<a class="target" href="{}">{}</a>', address, words)


def state_of(revision: Revision) -> SafeString:
    return mark_safe(mark(revision.state))  # noqa: S308 - drawing escapes its words


class ProductTable(Listing):
    """One product a row: what it must meet, since when, by which rule."""

    product = tables.Column("Product", accessor="product__code")
    in_force = tables.Column(
        "Must meet", accessor="in_force__number", empty_values=(), orderable=False
    )
    since = tables.Column("Since", accessor="in_force__in_force_on", default="")
    rules = tables.Column("By which rule", orderable=False)
    draft = tables.Column("Draft", empty_values=(), orderable=False)
    customers = tables.Column("For customers", empty_values=(), orderable=False)

    class Meta:
        order_by = "product"
        empty_text = "No product fits this filter. Take a box away, or show all."

    caption = "Products and the specifications they must meet"
    caption_unseen = True

    def render_product(self, record: ProductRow) -> SafeString:
        address = reverse("specifications:product", args=[record.product.code])
        return format_html(
            '<a href="{}">{}</a><div class="note">{}</div>',
            address,
            record.product.code,
            record.product.name,
        )

    def render_in_force(self, record: ProductRow) -> SafeString:
        if record.in_force is None:
            return format_html('<span class="note">{}</span>', "nothing in force")
        link = link_of(record.in_force, f"revision {record.in_force.number}")
        return format_html("{} {}", link, state_of(record.in_force))

    def render_since(self, record: ProductRow) -> str:
        return day(record.in_force) if record.in_force else ""

    def render_draft(self, record: ProductRow) -> SafeString:
        if record.draft is None:
            return NONE
        link = link_of(record.draft, f"revision {record.draft.number}")
        return format_html("{} {}", link, state_of(record.draft))

    def render_customers(self, record: ProductRow) -> SafeString:
        return revisions(record.customers, of="customer")


class CustomerTable(Listing):
    """One customer a row, with what was agreed."""

    name = tables.Column("Customer", accessor="0__name")
    language = tables.Column("Certificates in", accessor="0__get_language_display")
    agreed = tables.Column("Agreed", accessor="1", empty_values=(), orderable=False)

    class Meta:
        order_by = "name"
        empty_text = "No customer is kept here yet."

    caption = "Customers and the specifications agreed with them"
    caption_unseen = True

    def order_language(self, rows: Any, is_descending: bool) -> tuple[Any, bool]:  # noqa: FBT001 - called by django-tables2
        rows.data.sort(
            key=lambda row: (row[0].language, row[0].name), reverse=is_descending
        )
        return rows, True

    def render_name(self, record: tuple[Customer, list[Revision]]) -> SafeString:
        customer = record[0]
        address = reverse("specifications:customer", args=[customer.code])
        return format_html(
            '<a href="{}">{}</a> <span class="note">{}</span>',
            address,
            customer.name,
            customer.code,
        )

    def render_agreed(self, record: tuple[Customer, list[Revision]]) -> SafeString:
        return revisions(record[1], of="product")


def revisions(rows: list[Revision], *, of: str) -> SafeString:
    """Revisions one beneath the other, named by their product or their customer."""
    if not rows:
        return NONE
    named = [
        (
            link_of(it, f"{getattr(it.specification, of).code} revision {it.number}"),
            state_of(it),
        )
        for it in rows
    ]
    return format_html_join("", "<div>{} {}</div>", named)
