"""The fields of every place, bounded to sense, and how a part shows one: label, hint, box, and the line kept free for what the system says."""

import datetime as dt
import re
from collections.abc import Iterator
from typing import Any

from django.core.exceptions import ValidationError
from django.forms import (
    BaseForm,
    CharField,
    CheckboxInput,
    CheckboxSelectMultiple,
    DateField,
    DateInput,
    Field,
    HiddenInput,
    IntegerField,
    RadioSelect,
    TextInput,
)
from django.forms.boundfield import BoundField

from lims.bench.typed import moment_of
from lims.people.days import check_sensible
from lims.record.refusals import BadInput

LIKE_A_DATE = "%Y-%m-%d"
EMPTY = str(Field.default_error_messages["required"])
MISSING = "It is missing: fill it in."
WHOLE = re.compile(r"-?[0-9]{1,6}")


class DayField(DateField):
    """A day of the calendar that a laboratory can mean."""

    widget = DateInput(
        attrs={"class": "short", "autocomplete": "off"}, format=LIKE_A_DATE
    )
    input_formats = (LIKE_A_DATE,)
    default_error_messages = {
        "invalid": "This is no day of the calendar. Write it like 2026-03-05."
    }

    def clean(self, value: Any) -> dt.date | None:
        day: dt.date | None = super().clean(value)
        try:
            if day is not None:
                check_sensible(day, field="day")
        except BadInput as refusal:
            raise ValidationError(refusal.sentence) from refusal
        return day


class MomentField(CharField):
    """A day and time on the laboratory's clock; cleaned to an instant."""

    widget = TextInput(attrs={"class": "short", "autocomplete": "off"})

    def clean(self, value: Any) -> dt.datetime | None:
        text = str(super().clean(value) or "")
        if not text:
            return None
        try:
            return moment_of(text, field="moment")
        except BadInput as refusal:
            raise ValidationError(refusal.sentence) from refusal


class WholeNumberField(IntegerField):
    """A count in the figures 0 to 9, as it stands on paper; at most six of them."""

    widget = TextInput(
        attrs={"class": "short", "autocomplete": "off", "inputmode": "numeric"}
    )
    default_error_messages = {"invalid": "Write a whole number, such as 12."}

    def to_python(self, value: Any) -> int | None:
        text = "" if value is None else str(value).strip()
        if text and not WHOLE.fullmatch(text):
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        return int(text) if text else None


def kind(bound: BoundField) -> str:
    """``hidden``, ``tick``, ``choices`` or ``box``."""
    widget = bound.field.widget
    if isinstance(widget, HiddenInput):
        return "hidden"
    if isinstance(widget, CheckboxSelectMultiple | RadioSelect):
        return "choices"
    return "tick" if isinstance(widget, CheckboxInput) else "box"


def parts(bound: BoundField, *, hint: str = "", says: str = "") -> dict[str, Any]:
    """What ``_parts/field.html`` needs. ``says`` stands under the box unless it has a fault."""
    hint = hint or str(bound.help_text)
    hint_id, says_id = f"{bound.auto_id}-hint", f"{bound.auto_id}-says"
    described = f"{hint_id} {says_id}" if hint else says_id
    sort = kind(bound)
    return {
        "bound": bound,
        "kind": sort,
        "hint": hint,
        "hint_id": hint_id,
        "says_id": says_id,
        "described": described,
        "sentences": [_said(it) for it in bound.errors],
        "says": says,
        "box": ""
        if sort == "choices"
        else bound.as_widget(attrs=_attrs(bound, sort, described)),
        "choices": list(_choices(bound)) if sort == "choices" else [],
    }


def _attrs(bound: BoundField, sort: str, described: str) -> dict[str, str | bool]:
    if sort == "hidden":
        return {}
    attrs: dict[str, str | bool] = {"aria-describedby": described}
    if sort == "box":
        own = bound.field.widget.attrs.get("class", "")
        attrs["class"] = f"in {own}".strip()
    if bound.errors:
        attrs["aria-invalid"] = "true"
    return attrs


def _choices(bound: BoundField) -> Iterator[dict[str, Any]]:
    notes = getattr(bound.field, "notes", {})
    for choice in bound.subwidgets:
        yield {
            "tag": choice.tag(),
            "box": choice.id_for_label,
            "label": choice.choice_label,
            "note": notes.get(str(choice.data["value"]), ""),
        }


def faults(form: BaseForm) -> list[dict[str, str]]:
    """Every fault of a form: the box to jump to, its label, the sentence."""
    found = [
        {"box": "", "label": "", "sentence": str(it)} for it in form.non_field_errors()
    ]
    found += [
        {
            "box": bound.id_for_label or bound.auto_id,
            "label": str(bound.label),
            "sentence": _said(sentence),
        }
        for bound in form
        for sentence in bound.errors
    ]
    return found


def _said(sentence: Any) -> str:
    """A sentence that says what to do, also where a form names none of its own."""
    return MISSING if str(sentence) == EMPTY else str(sentence)


def heading(count: int) -> str:
    return (
        "1 box needs another look" if count == 1 else f"{count} boxes need another look"
    )
