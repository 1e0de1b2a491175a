"""The table of files that were brought in."""

from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from lims.drawing.icons import mark
from lims.imports.models import Import
from lims.screens.imports import listing
from lims.screens.sorting import Listing
from lims.screens.templatetags.kettlemark import labtime


class ImportTable(Listing):
    """Newest first; sorted by any column that a person can read."""

    name = tables.Column(verbose_name="File")
    kind = tables.Column(verbose_name="It holds")
    state = tables.Column(verbose_name="State")
    received_at = tables.Column(verbose_name="Brought in", order_by="pk")
    received_by = tables.Column(verbose_name="By", order_by="received_by__name")
    came = tables.Column(verbose_name="Where it stands", orderable=False, accessor="pk")

    class Meta:
        order_by = "-received_at"
        attrs = {"class": "certs files"}

    empty_text = "No file fits. Widen the filter, or bring a file in."
    caption = "Files that were brought in, the latest first"
    caption_unseen = True

    def render_name(self, record: Import) -> SafeString:
        address = reverse("imports:one", args=[record.pk])
        return format_html('<a class="wordy" href="{}">{}</a>', address, record.name)

    def render_kind(self, record: Import) -> str:
        return str(record.get_kind_display())

    def render_state(self, record: Import) -> SafeString:
        return mark_safe(mark(record.state))  # noqa: S308 - drawing escapes its words

    def render_received_at(self, value: Any) -> Any:
        return labtime(value)

    def render_came(self, record: Import) -> str:
        return listing.came(record)
