"""The lists of batches and of retains."""

from collections.abc import Iterable
from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from lims.batches.models import Batch, FillLot, Retain
from lims.drawing.icons import mark
from lims.screens.sorting import Listing
from lims.screens.zone import zone
from lims.wording import dates

NUMBER = {"th": {"class": "num"}, "td": {"class": "num"}}


def linked(place: str, number: str, words: object) -> SafeString:
    return format_html(
        '<a class="code" href="{}">{}</a>', reverse(place, args=[number]), words
    )


class BatchTable(Listing):
    """One batch a row, with the state of each of its fill lots."""

    number = tables.Column("Batch")
    product = tables.Column("Product", accessor="product__code")
    kettle = tables.Column("Kettle")
    mass_kg = tables.Column("Mass, kg", orderable=False, attrs=NUMBER)
    charged_on = tables.Column("Charged", order_by=("charged_on", "number"))
    lots = tables.Column(
        "Fill lots", accessor="fill_lots", orderable=False, empty_values=()
    )
    caption = "Batches, the latest first"
    caption_unseen = True
    empty_text = "No batch fits. Widen the filter, or register a batch."

    class Meta:
        order_by = "-charged_on"

    def render_number(self, value: str) -> SafeString:
        return linked("batches:batch", value, value)

    def render_charged_on(self, value: Any) -> str:
        return dates.day(value, zone())

    def render_lots(self, record: Batch) -> SafeString | str:
        return states_of(record.fill_lots.all()) or "none yet"


def states_of(lots: Iterable[FillLot]) -> SafeString:
    """Each fill lot by its letter, with the mark of its state."""
    return format_html_join(
        mark_safe("<br>"),
        '<a class="code target" href="{}">{}</a> {}',
        (
            (
                reverse("batches:lot", args=[lot.number]),
                lot.letter,
                mark_safe(mark(lot.state, soft=True)),  # noqa: S308 - drawing escapes its words
            )
            for lot in lots
        ),
    )


class RetainTable(Listing):
    """One retain a row, by its place."""

    place = tables.Column("Place", attrs={"td": {"class": "code"}})
    sample = tables.Column("Sample", accessor="sample__number")
    lot = tables.Column("Fill lot", accessor="sample__fill_lot__number")
    product = tables.Column(
        "Product", accessor="sample__fill_lot__batch__product__code"
    )
    sealed_at = tables.Column("Sealed")
    sealed_by = tables.Column("By", accessor="sealed_by__name")
    caption = "Retains, by place"
    caption_unseen = True
    empty_text = "No retain fits. A retain is noted on the page of its fill lot."

    class Meta:
        order_by = "place"

    def render_lot(self, record: Retain) -> SafeString:
        lot = record.sample.fill_lot
        return linked("batches:lot", lot.number, lot) if lot else SafeString("")

    def render_sealed_at(self, value: Any) -> str:
        return dates.day_time(value, zone())
