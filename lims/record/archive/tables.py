"""The recorded tables as an archive holds them: which, in which columns, and each value as JSON and back."""

import base64
import datetime as dt
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from django.contrib.auth.hashers import make_password
from django.db import models
from django.db.models import Field, Model

from lims.record.differences import utc_text
from lims.record.trigger_texts import recorded_models

AnyField = Field[Any, Any]
Told = dict[str, Any]


def archived() -> list[type[Model]]:
    """Every recorded table, from the last room down to the first, in each whatever leads to a row before the row.

    A room's own triggers ask what stands in it or in the rooms below it (a requirement of
    a revision in force, a reading of a released lot). Loaded in this order nothing of
    that stands yet, so rows come in as they were under all triggers, with none taken off;
    the links are checked when all rows are there.
    """
    rooms: dict[str, list[type[Model]]] = {}
    for model in recorded_models():
        rooms.setdefault(model._meta.app_label, []).append(model)
    return [model for room in reversed(rooms.values()) for model in _leaves_first(room)]


def _leaves_first(room: Sequence[type[Model]]) -> list[type[Model]]:
    waiting, found = list(room), list[type[Model]]()
    while waiting:
        free = [it for it in waiting if not _is_led_to(it, waiting)]
        found += free or waiting[:1]
        waiting = [it for it in waiting if it not in found]
    return found


def _is_led_to(model: type[Model], by: Sequence[type[Model]]) -> bool:
    return any(
        field.related_model is model
        for other in by
        if other is not model
        for field in other._meta.concrete_fields
    )


def columns(model: type[Model]) -> list[AnyField]:
    """What is archived of a row: every stored field but the secret ones."""
    secret: frozenset[str] = getattr(model, "secret_fields", frozenset())
    return [it for it in model._meta.concrete_fields if it.name not in secret]


def names(model: type[Model]) -> list[str]:
    return [it.attname for it in columns(model)]


def part_of(model: type[Model]) -> str:
    """The name of the table's part in the archive."""
    return f"tables/{model._meta.label}.jsonl"


def as_told(values: Sequence[Any], fields: Sequence[AnyField]) -> Told:
    """A row as a JSON object."""
    return {
        field.attname: _told(field, value)
        for field, value in zip(fields, values, strict=True)
    }


def _told(field: AnyField, value: Any) -> Any:
    if value is None or isinstance(field, models.JSONField):
        return value
    if isinstance(value, bytes | bytearray | memoryview):
        return base64.b64encode(bytes(value)).decode("ascii")
    if isinstance(value, dt.datetime):
        return utc_text(value)
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    return str(value) if isinstance(value, Decimal) else value


def as_row(told: Told, model: type[Model]) -> Model:
    """The row of a JSON object; a secret stands as one that nobody knows."""
    secrets = dict.fromkeys(getattr(model, "secret_fields", ()), make_password(None))
    values = {it.attname: _value(it, told[it.attname]) for it in columns(model)}
    return model(**secrets, **values)


def _value(field: AnyField, told: Any) -> Any:
    if told is None or isinstance(field, models.JSONField):
        return told
    if isinstance(field, models.BinaryField):
        return base64.b64decode(told, validate=True)
    if isinstance(field, models.DateTimeField):
        return dt.datetime.fromisoformat(told)
    target = field.target_field if isinstance(field, models.ForeignKey) else field
    return target.to_python(told)
