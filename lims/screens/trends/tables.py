"""The list of products that can be charted."""

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from lims.screens.zone import zone
from lims.trends.asked import OfProduct
from lims.wording import dates
from lims.wording.numbers import counts

NUMBERS = {"th": {"class": "num"}, "td": {"class": "num n"}}


class ProductTable(tables.Table):
    """One product a row, with how many values can be charted."""

    product = tables.Column("Product", accessor="product__code")
    own = tables.Column("Reported here", attrs=NUMBERS)
    history = tables.Column("Unverified history", attrs=NUMBERS)
    latest = tables.Column("Last value", empty_values=())

    class Meta:
        order_by = "product"
        empty_text = "No product fits."

    caption = "Products with values that can be charted"
    caption_unseen = True

    def render_product(self, record: OfProduct) -> SafeString:
        address = reverse("trends:product", args=[record.product.code])
        return format_html(
            '<a href="{}">{}</a><div class="note">{}</div>',
            address,
            record.product.code,
            record.product.name,
        )

    def render_own(self, value: int) -> str:
        return counts(value)

    def render_history(self, value: int) -> str:
        return counts(value) if value else "none"

    def render_latest(self, record: OfProduct) -> str:
        return dates.day(record.latest, zone()) if record.latest else "none"
