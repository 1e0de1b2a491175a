"""A form field as its part shows it: label, hint, box, and the line kept free for what the system says."""

from collections.abc import Iterator
from typing import Any

from django.forms import (
    BaseForm,
    CheckboxInput,
    CheckboxSelectMultiple,
    HiddenInput,
    RadioSelect,
)
from django.forms.boundfield import BoundField


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
        "sentences": list(bound.errors),
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
            "sentence": str(sentence),
        }
        for bound in form
        for sentence in bound.errors
    ]
    return found


def heading(count: int) -> str:
    return (
        "1 box needs another look" if count == 1 else f"{count} boxes need another look"
    )
