"""What the page of parts shows: every part of every page, once, with example values."""

from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from typing import Any

import django_tables2 as tables
from django import forms
from django.http import HttpRequest
from django.utils.safestring import SafeString, mark_safe

from lims.drawing.curve import Vessel
from lims.drawing.icons import mark
from lims.record import clock

STATES: dict[str, tuple[str, ...]] = {
    "Verdict": ("met", "not met", "not tested", "not evaluated"),
    "Test": ("due", "running", "reported", "authorised"),
    "Determination": ("accepted", "set aside"),
    "Fill lot": (
        *("on test", "awaiting decision", "released", "on hold"),
        *("released under concession", "for rework", "regraded", "scrapped"),
    ),
    "Specification revision": ("draft", "in force", "superseded"),
    "Instrument": ("in service", "overdue", "out of service", "retired"),
    "Certificate": ("current", "superseded", "withdrawn"),
    "A box": ("saved", "saving", "not saved"),
    "File brought in": ("received", "taken in", "refused", "left", "withdrawn"),
    "Cell of a file": (
        *("taken", "converted", "needs an answer", "refused", "left out", "empty"),
    ),
}
ONCE = tuple(dict.fromkeys(word for words in STATES.values() for word in words))
LAST = ("274", "276", "277", "279", "279", "280", "281", "283", "284", "286")
PENETRATION = {"name": "Worked penetration", "lower": "265", "upper": "295"}
CHANGE = {"name": "Change", "upper": "30", "signed": True}


@dataclass(frozen=True)
class Shown:
    """One ruler and the words above it."""

    words: str
    values: dict[str, Any]


BARS = (
    Shown(
        "Two limits, met",
        {**PENETRATION, "value": "281", "verdict": "met", "last": LAST},
    ),
    Shown(
        "Not met",
        {**PENETRATION, "value": "297", "verdict": "not met", "last": LAST},
    ),
    Shown(
        "Inside the limits, outside the internal band: still met",
        {**PENETRATION, "value": "292", "verdict": "met", "internal": ("270", "290")},
    ),
    Shown(
        "A decision rule narrows the zone: not met by this rule",
        {
            **PENETRATION,
            "value": "293",
            "verdict": "not met",
            "accept": ("268.56", "291.44"),
        },
    ),
    Shown(
        "Upper limit only, an amount",
        {
            "name": "Oil separation",
            "upper": "5.0",
            "value": "2.8",
            "verdict": "met",
            "last": ("2.6", "2.7", "2.8", "2.8", "3.1"),
        },
    ),
    Shown(
        "Upper limit only, a signed change",
        {**CHANGE, "value": "21", "verdict": "met", "last": ("16", "18", "19", "26")},
    ),
    Shown(
        "Lower limit only",
        {
            "name": "Dropping point",
            "lower": "190",
            "span": "25",
            "value": "202",
            "verdict": "met",
            "last": ("196", "198", "200", "203", "205"),
        },
    ),
    Shown(
        "Off the scale: the ruler breaks, the limits stay",
        {**CHANGE, "value": "62", "verdict": "not met"},
    ),
    Shown(
        "More than the method can show: the arrow says where the value lies",
        {
            "name": "Dropping point",
            "lower": "250",
            "span": "50",
            "value": ">288",
            "verdict": "met",
        },
    ),
    Shown(
        "From another batch: hollow",
        {
            "name": "Oxidation",
            "upper": "70",
            "value": "38",
            "verdict": "met",
            "other": True,
        },
    ),
    Shown(
        "Readings of one set, no result yet",
        {**PENETRATION, "drops": ("276", "284", "279"), "aside": ("270",)},
    ),
)
RATING = {
    "name": "Copper strip",
    "limit": "1b",
    "value": "1a",
    "verdict": "met",
    "last": ("1a",) * 8 + ("1b",) * 2,
}
HOURS = {
    "title": "Oxidation, 63 of 100 hours",
    "total": 100,
    "done": 63,
    "major": 10,
    "minor": 2,
    "labels": ((0, "0"), (24, "24"), (48, "48"), (72, "72"), (100, "100 h")),
    "slots": ((24, True), (48, True), (72, False), (100, False)),
}
STROKES = {
    "title": "Prolonged working, 79 800 of 100 000 double strokes",
    "total": 100_000,
    "done": 79_800,
    "major": 10_000,
    "minor": 2_000,
    "labels": ((0, "0"), (50_000, "50\u00a0000"), (100_000, "100\u00a0000")),
}
VESSELS = {
    "title": "Oxidation: fall of pressure, 63 of 100 hours",
    "about": (
        "OX-1 has fallen 25 kPa after 48 h, OX-2 22.8 kPa. The limit is 70 kPa after "
        "100 h. The last ten lots ended between 36 and 46 kPa."
    ),
    "hours": 100,
    "limit": "70",
    "vessels": (
        Vessel(
            "OX-1", ((0, 0), (24, 12), (48, 25), (63, "32.4")), ((24, 12), (48, 25))
        ),
        Vessel(
            "OX-2",
            ((0, 0), (24, "10.3"), (48, "22.8"), (63, "30.1")),
            ((24, "10.3"), (48, "22.8")),
        ),
    ),
    "last": (36, 38, 39, 40, 41, 42, 42, 43, 45, 46),
    "now": 63,
    "to_come": (72, 100),
}


class ExampleForm(forms.Form):
    """Fields of every kind."""

    order = forms.CharField(
        label="Order number", help_text="As on the customer's order", required=False
    )
    place = forms.CharField(
        label="Retain place",
        help_text="Room, shelf, box",
        widget=forms.TextInput({"class": "code"}),
    )
    block = forms.CharField(
        label="Block temperature, °C", help_text="232 or 288 for this method"
    )
    edition = forms.CharField(label="Method edition", disabled=True, required=False)
    kettle = forms.ChoiceField(
        label="Kettle",
        help_text="Where it was made",
        choices=[("K1", "K1"), ("K2", "K2")],
    )
    reason = forms.CharField(
        label="Reason",
        help_text="Read by the auditor, kept for good",
        widget=forms.Textarea({"rows": 3}),
    )
    release = forms.ChoiceField(
        label="Disposition",
        widget=forms.RadioSelect,
        choices=[("release", "Release"), ("hold", "Hold")],
    )
    deputy = forms.BooleanField(label="A deputy alone is on duty", required=False)

    def clean_block(self) -> str:
        text: str = self.cleaned_data["block"]
        if text not in {"232", "288"}:
            raise forms.ValidationError(
                f"{text} is not a set point of this method. Read the block again."
            )
        return text


def example_form() -> ExampleForm:
    form = ExampleForm(
        {
            "place": "R-12-04",
            "block": "268",
            "kettle": "K1",
            "reason": "Transposed digit, printout attached",
            "release": "release",
        },
        initial={"edition": "D217, edition 21a"},
        auto_id="example-%s",
    )
    form.fields["release"].notes = {  # type: ignore[attr-defined]
        "release": "Certificates may be issued.",
        "hold": "Nothing may leave until a new decision.",
    }
    return form


class ExampleTable(tables.Table):
    """One unit a column, in its head."""

    number = tables.Column("Batch", attrs={"td": {"class": "code"}})
    penetration = tables.Column(
        "Value, × 0.1 mm", attrs={"th": {"class": "num"}, "td": {"class": "num"}}
    )
    oil = tables.Column(
        "Oil separation, %", attrs={"th": {"class": "num"}, "td": {"class": "num"}}
    )
    verdict = tables.Column("Verdict", orderable=False)
    caption = "Worked penetration of LX2, last three batches"

    class Meta:
        order_by = "-number"

    def render_verdict(self, value: str) -> SafeString:
        return mark_safe(mark(value))  # noqa: S308 - drawing escapes its words


ROWS = (
    {"number": "Q1-26-0428", "penetration": "281", "oil": "2.8", "verdict": "met"},
    {
        "number": "Q1-26-0427",
        "penetration": "279",
        "oil": "3.1",
        "verdict": "not tested",
    },
    {"number": "Q1-26-0426", "penetration": "297", "oil": "2.6", "verdict": "not met"},
)


def context(request: HttpRequest) -> dict[str, Any]:
    """Everything that ``front/parts.html`` shows."""
    table = ExampleTable(ROWS)
    tables.RequestConfig(request).configure(table)
    now = clock.now()
    return {
        "states": STATES,
        "words": ONCE,
        "bars": BARS,
        "rating": RATING,
        "hours": HOURS,
        "strokes": STROKES,
        "vessels": VESSELS,
        "form": example_form(),
        "table": table,
        "exact": Decimal("279.67"),
        "started": now - timedelta(hours=63),
        "due": now + timedelta(hours=9, minutes=5),
        "late": now - timedelta(hours=19, minutes=20),
        "length": timedelta(hours=17, minutes=20),
    }
