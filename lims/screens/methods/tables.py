"""The list of methods, one edition a row."""

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from lims.methods.models import Characteristic
from lims.screens.methods.presenting import EditionRow
from lims.screens.sorting import Listing
from lims.screens.zone import zone
from lims.wording import dates


class EditionTable(Listing):
    """How it is measured, how well, who checked the figures."""

    method = tables.Column("Method", accessor="method__designation")
    edition = tables.Column(
        "Edition and its standing", accessor="edition__edition", default="none yet"
    )
    measures = tables.Column("Measures", empty_values=(), orderable=False)
    figures = tables.Column(
        "Figures in force", accessor="figure_count", empty_values=()
    )
    checked = tables.Column("Last checked", accessor="last_checked_on", empty_values=())

    class Meta:
        order_by = "method"
        empty_text = "No method fits this filter. Take a box away, or show all."

    caption = "Methods with their editions"
    caption_unseen = True

    def render_method(self, record: EditionRow) -> SafeString:
        address = reverse("methods:one", args=[record.method.pk])
        return format_html(
            '<a href="{}">{}</a><div class="note">{}</div>',
            address,
            record.method.designation,
            record.method.title,
        )

    def render_edition(self, record: EditionRow) -> SafeString:
        if record.edition is None:
            return format_html("{}", "none yet")
        edition = record.edition
        return format_html(
            '{}<div class="note">{}</div>', edition.edition, edition.standing
        )

    def render_measures(self, record: EditionRow) -> SafeString:
        """One characteristic with its conditions; of several their names, each once."""
        if len(record.measures) == 1:
            return _named(record.measures[0])
        names = dict.fromkeys(it.name for it in record.measures)
        return format_html_join("", "<div>{}</div>", ((it,) for it in names))

    def render_figures(self, record: EditionRow) -> SafeString | str:
        if not record.figure_count:
            return "none stated"
        count = record.figure_count
        words = f"{count} figure{'' if count == 1 else 's'}"
        if not record.from_memory:
            return words
        note = f"{record.from_memory} from memory, not checked"
        return format_html('{}<div class="note">{}</div>', words, note)

    def render_checked(self, record: EditionRow) -> SafeString | str:
        check = record.last_check
        if check is None:
            return format_html('<span class="note">{}</span>', "not checked")
        day = dates.day(check.checked_on, zone())
        return format_html('{}<div class="note">by {}</div>', day, check.checked_by)


class CharacteristicTable(Listing):
    """Everything that can be measured, in the order of the bench."""

    place = tables.Column("Place", attrs={"td": {"class": "n"}})
    name = tables.Column("Characteristic")
    procedure = tables.Column("Procedure")
    unit = tables.Column("Unit", default="")
    kind = tables.Column("Kind")
    step = tables.Column("Reported to", orderable=False)

    class Meta:
        order_by = ("place", "name")
        empty_text = "No characteristic is kept here yet."

    caption = "Characteristics, in the order of the bench"
    caption_unseen = True
    row_header = "name"

    def render_name(self, record: Characteristic) -> SafeString:
        return _named(record)

    def render_step(self, record: Characteristic) -> str:
        return record.step if record.kind == Characteristic.Kind.NUMBER else ""


def _named(it: Characteristic) -> SafeString:
    address = reverse("methods:characteristic", args=[it.code])
    if not it.conditions:
        return format_html('<a href="{}">{}</a>', address, it.name)
    return format_html(
        '<a href="{}">{}</a> <span class="note">{}</span>',
        address,
        it.name,
        it.conditions,
    )
