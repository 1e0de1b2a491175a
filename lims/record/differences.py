"""Rows as text, and what differs between two states of a row. The record tells changes in these texts."""

import hashlib
from collections.abc import Mapping
from datetime import UTC, date, datetime, time
from typing import Any, NamedTuple

from django.db import models
from django.db.models import Field, Model

from specs import chain

State = Mapping[str, str | None]

HIDDEN = "(hidden)"


class Change(NamedTuple):
    """One field of one row, before and after, as the record shows it."""

    model: str
    id: str
    name: str
    field: str
    before: str | None
    after: str | None


def state_of(row: Model) -> dict[str, str | None]:
    """Every stored field of a row as text; the primary key stands apart."""
    return {
        field.name: text_of(field, getattr(row, field.attname))
        for field in row._meta.concrete_fields
        if not field.primary_key
    }


def text_of(field: "Field[Any, Any]", value: Any) -> str | None:  # noqa: PLR0911 - one line a type
    """The stored form of a value: equal texts mean equal values."""
    if value is None:
        return None
    if isinstance(field, models.JSONField):
        return chain.canonical(value).decode()
    if isinstance(value, bytes | bytearray | memoryview):
        return f"sha256:{hashlib.sha256(bytes(value)).hexdigest()}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return utc_text(value)
    if isinstance(value, date | time):
        return value.isoformat()
    return str(value)


def utc_text(instant: datetime) -> str:
    """An instant as text that sorts as time does: UTC, microseconds, a Z."""
    return instant.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def differences(
    row: "Touched", before: State | None, after: State | None
) -> list[Change]:
    """What changed in one row. No state before means it was made, none after that it went.

    Secrets are told as changed but not shown; long frozen texts stand as their hash.
    """
    found = []
    for field in before or after or {}:
        old = before[field] if before else None
        new = after[field] if after else None
        bare = not (old or new) and not (before and after)  # made or gone while empty
        if old == new or bare:
            continue
        texts = (shown(row.model, field, old), shown(row.model, field, new))
        found.append(
            Change(row.model._meta.label, str(row.pk), row.name, field, *texts)
        )
    return found


class Touched(NamedTuple):
    """A row that an entry has to do with, by its place and its name."""

    model: type[Model]
    pk: Any
    name: str


def shown(model: type[Model], field: str, text: str | None) -> str | None:
    """A stored text as the record shows it."""
    if text is None:
        return None
    if field in getattr(model, "secret_fields", ()):
        return HIDDEN
    if field in getattr(model, "hashed_fields", ()):
        return f"sha256:{hashlib.sha256(text.encode()).hexdigest()}"
    return text
