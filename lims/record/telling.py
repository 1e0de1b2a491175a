"""The differences of entries as a reader sees them: fields by their words, links by the names of what they lead to."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from django.apps import apps
from django.core.exceptions import FieldDoesNotExist
from django.db.models import Field, Model, QuerySet

from lims.record.models import Entry


class Told(NamedTuple):
    """One difference in words. `model` and `id` lead to the row, should it still be there."""

    model: str
    id: str
    thing: str
    field: str
    before: str | None
    after: str | None


Names = dict[tuple[type[Model], str], str]


def told(entries: Iterable[Entry]) -> dict[int, list[Told]]:
    """The differences of each entry by its number; one query for each kind of thing linked to."""
    changes = {entry.seq: entry.changes for entry in entries}
    names = _names_of_links(each for some in changes.values() for each in some)
    return {
        seq: [_in_words(change, names) for change in some]
        for seq, some in changes.items()
    }


def _in_words(change: dict[str, Any], names: Names) -> Told:
    field = _field(change["model"], change["field"])
    words = str(getattr(field, "verbose_name", change["field"].replace("_", " ")))
    target = _target(field)
    before, after = (
        names.get((target, text), text) if target and text else text
        for text in (change["before"], change["after"])
    )
    return Told(change["model"], change["id"], change["name"], words, before, after)


def _names_of_links(changes: Iterable[dict[str, Any]]) -> Names:
    wanted: dict[Any, set[str]] = {}
    for change in changes:
        target = _target(_field(change["model"], change["field"]))
        if target:
            ids = {text for text in (change["before"], change["after"]) if text}
            wanted.setdefault(target, set()).update(ids)
    return {
        (model, str(row.pk)): row.record_key()[2]
        for model, ids in wanted.items()
        for row in _rows(model, ids)
    }


def _rows(model: Any, ids: set[str]) -> "QuerySet[Any]":
    """The rows with what their names are made of, in one query."""
    found: QuerySet[Any] = model._default_manager.filter(pk__in=ids)
    return found.select_related(*model.named_by) if model.named_by else found


def _field(model: str, name: str) -> "Field[Any, Any] | None":
    """The field as the program has it today; the record may tell of one that is gone."""
    try:
        field = apps.get_model(model)._meta.get_field(name)
    except (LookupError, FieldDoesNotExist):
        return None
    return field if isinstance(field, Field) else None


def _target(field: "Field[Any, Any] | None") -> Any:
    target = field.related_model if field is not None else None
    return target if hasattr(target, "named_by") else None
