"""The list of certificates, one revision a row."""

from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from lims.certificates.models import CertificateRevision
from lims.drawing.icons import mark
from lims.screens.certificates.words import mass
from lims.screens.sorting import Listing
from lims.screens.zone import zone
from lims.wording import dates

NUMBER = {"th": {"class": "num"}, "td": {"class": "num"}}
Issued = CertificateRevision


class CertificateTable(Listing):
    """Newest first. A mass has no order of its own: it is reckoned from packs and their size."""

    number = tables.Column("Certificate", accessor="certificate__number")
    revision = tables.Column("Rev.", attrs=NUMBER)
    state = tables.Column("State")
    customer = tables.Column("Customer", accessor="certificate__customer__name")
    order = tables.Column(
        "Order", accessor="certificate__allotment__order", orderable=False
    )
    product = tables.Column(
        "Product", accessor="certificate__fill_lot__batch__product__code"
    )
    lot = tables.Column("Fill lot", accessor="certificate__fill_lot__number")
    issued_at = tables.Column("Issued")
    mass = tables.Column("Mass, kg", empty_values=(), orderable=False, attrs=NUMBER)
    paper = tables.Column("Paper", empty_values=(), orderable=False)

    class Meta:
        attrs = {"class": "certs"}
        order_by = "-issued_at"
        empty_text = "No certificate fits this filter. Take a box away, or show all."

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.caption = "Certificates, one revision a row"
        self.caption_unseen = True

    def order_issued_at(self, rows: Any, is_descending: bool) -> tuple[Any, bool]:  # noqa: FBT001 - called by django-tables2
        sign = "-" if is_descending else ""
        keys = ("issued_at", "certificate__year", "certificate__sequence", "revision")
        return rows.order_by(*(f"{sign}{key}" for key in keys)), True

    def render_number(self, record: Issued) -> SafeString:
        number = record.certificate.number
        return _link(reverse("certificates:one", args=[number]), number)

    def render_state(self, record: Issued) -> SafeString:
        shown = mark_safe(mark(record.state))  # noqa: S308 - drawing escapes its words
        note = "" if record.file else "being printed"
        if record.file and record.revision:
            note = f"replaces revision {record.revision - 1}"
        if not note:
            return shown
        return format_html('{}<div class="note">{}</div>', shown, note)

    def render_order(self, value: str) -> SafeString:
        return format_html('<span class="code">{}</span>', value)

    def render_lot(self, record: Issued) -> SafeString:
        lot = record.certificate.fill_lot
        return _link(reverse("batches:lot", args=[lot.number]), str(lot))

    def render_issued_at(self, record: Issued) -> SafeString:
        at = record.issued_at
        words = dates.day(at, zone(), year=True)
        return format_html(
            '<time class="nowrap" datetime="{}">{} {}</time>',
            *(at.isoformat(), words, dates.clock(at, zone())),
        )

    def render_mass(self, record: Issued) -> str:
        allotment = record.certificate.allotment
        allotment.fill_lot = record.certificate.fill_lot  # fetched with the row already
        return mass(allotment)

    def render_paper(self, record: Issued) -> SafeString | str:
        if not record.file:
            return "–"
        number = record.certificate.number
        address = reverse("certificates:pdf", args=[number, record.revision])
        return format_html(
            '<a href="{}" aria-label="PDF of {} revision {}">PDF</a>',
            *(address, number, record.revision),
        )


def _link(address: str, words: str) -> SafeString:
    return format_html('<a class="code" href="{}">{}</a>', address, words)
