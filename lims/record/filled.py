"""Whether a row's texts may be stored: nothing demanded is missing, nothing is too long, a choice is of its list."""

from collections.abc import Iterable
from typing import Any

from django.db import models

from lims.record.refusals import BadInput


def check_filled(row: models.Model, *, besides: Iterable[str] = ()) -> None:
    """Refuse the first text of the row that cannot be stored, on either engine alike."""
    for field in row._meta.concrete_fields:
        if isinstance(field, models.CharField) and field.name not in besides:
            _check_text(field, getattr(row, field.name))


def check_free(row: models.Model, field: str) -> None:
    """Refuse a number or code that another row has already."""
    value = getattr(row, field)
    others = type(row)._default_manager.filter(**{field: value}).exclude(pk=row.pk)
    if others.exists():
        raise BadInput(
            f"The {row._meta.verbose_name} {value} stands here already: "
            "open it, or choose another.",
            field=field,
        )


def _check_text(field: "models.CharField[Any, Any]", text: str) -> None:
    label = str(field.verbose_name)
    if not text.strip() and not field.blank:
        raise BadInput(f"The {label} is missing: enter it.", field=field.name)
    if any(not sign.isprintable() for sign in text):
        raise BadInput(
            f"The {label} holds a sign that cannot be printed: type it again.",
            field=field.name,
        )
    if field.max_length is not None and len(text) > field.max_length:
        raise BadInput(
            f"The {label} is {len(text)} characters long: "
            f"shorten it to {field.max_length}.",
            field=field.name,
        )
    _check_choice(field, label, text)


def _check_choice(field: "models.CharField[Any, Any]", label: str, text: str) -> None:
    known = [str(value) for value, _ in field.flatchoices]
    if known and text and text not in known:
        raise BadInput(
            f"“{text}” is no {label}: choose one of {', '.join(known)}.",
            field=field.name,
        )
