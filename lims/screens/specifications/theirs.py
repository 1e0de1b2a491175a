"""What somebody else saved meanwhile, beside what was typed: shown when a form comes too late."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.forms import ChoiceField, Form
from django.forms.boundfield import BoundField

VERSION = "version"
NOTHING = "nothing"


@dataclass(frozen=True)
class Conflict:
    """One box in which what was typed and what stands now differ."""

    label: str
    yours: str
    theirs: str


def conflicts(form: Form, now: Mapping[str, Any]) -> list[Conflict]:
    """Where a form that was opened at an older version differs from what stands now."""
    if not form.is_bound or not is_late(form, now):
        return []
    pairs = [
        (form[name], shown(form[name], now[name]))
        for name in form.fields
        if name in now and name != VERSION
    ]
    return [
        Conflict(str(box.label), typed, stands)
        for box, stands in pairs
        if (typed := shown(box, box.value())) != stands
    ]


def is_late(form: Form, now: Mapping[str, Any]) -> bool:
    """Whether the version that the form carries is no longer the one that stands."""
    return str(form[VERSION].value()) != str(now[VERSION])


def shown(box: BoundField, value: Any) -> str:
    """A value as its box shows it: the words of a choice, the text of anything else."""
    text = "" if value is None else str(value).strip()
    if text and isinstance(box.field, ChoiceField):
        choices: Any = box.field.choices
        words = {str(key): str(label) for key, label in choices}
        return words.get(text, text)
    return text or NOTHING
