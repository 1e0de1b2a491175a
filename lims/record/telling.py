"""The differences of entries as a reader sees them: fields by their words, links by the names of what they lead to, a new row beside the one it replaces."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from django.apps import apps
from django.core.exceptions import FieldDoesNotExist
from django.db.models import Field, Model, QuerySet

from lims.record.differences import shown, state_of
from lims.record.models import Entry

REPLACES = "replaces"


class Told(NamedTuple):
    """One difference in words. `model` and `id` lead to the row, should it still be there."""

    model: str
    id: str
    thing: str
    field: str
    before: str | None
    after: str | None


Difference = dict[str, Any]  # one change as the record keeps it
Names = dict[tuple[type[Model], str], str]
States = dict[tuple[str, str], dict[str, str | None]]


def told(entries: Iterable[Entry]) -> dict[int, list[Told]]:
    """The differences of each entry by its number; one query for each kind of thing linked to."""
    changes = {entry.seq: entry.changes for entry in entries}
    states = _replaced(each for some in changes.values() for each in some)
    changes = {
        seq: list(_beside_replaced(some, states)) for seq, some in changes.items()
    }
    names = _names_of_links(each for some in changes.values() for each in some)
    return {
        seq: [_in_words(change, names) for change in some]
        for seq, some in changes.items()
    }


def _replaced(changes: Iterable[Difference]) -> States:
    """By each row that replaces another of its kind, what stood in that other one."""
    wanted: dict[type[Model], dict[str, str]] = defaultdict(dict)
    for change in changes:
        model = _replaced_model(change)
        if model is not None:
            wanted[model][change["after"]] = change["id"]
    return {
        (model._meta.label, new[str(row.pk)]): {
            field: shown(model, field, text) for field, text in state_of(row).items()
        }
        for model, new in wanted.items()
        for row in model._default_manager.filter(pk__in=new)
    }


def _replaced_model(change: Difference) -> type[Model] | None:
    """The table of a row, if the change is that it replaces another row of it."""
    if change["field"] != REPLACES or change["before"] or not change["after"]:
        return None
    field = _field(change["model"], REPLACES)
    is_own = field is not None and field.related_model is field.model
    return field.model if field is not None and is_own else None


def _beside_replaced(changes: list[Difference], states: States) -> Iterator[Difference]:
    """The changes of an entry, those of a correction with what stood in the row that it replaces."""
    told: dict[tuple[str, str], set[str]] = defaultdict(set)
    for change in changes:
        told[change["model"], change["id"]].add(change["field"])
    for change in changes:
        place = change["model"], change["id"]
        state = states.get(place)
        if state is None:
            yield change
        elif change["field"] == REPLACES:
            gone = set(state) - told[place] - {REPLACES}
            for field in (each for each in state if each in gone and state[each]):
                yield change | {"field": field, "before": state[field], "after": ""}
        else:
            old = state.get(change["field"])
            yield change | {"before": None if old == change["after"] else old}


def _in_words(change: Difference, names: Names) -> Told:
    field = _field(change["model"], change["field"])
    words = str(getattr(field, "verbose_name", change["field"].replace("_", " ")))
    target = _target(field)
    before, after = (
        names.get((target, text), text) if target and text else text
        for text in (change["before"], change["after"])
    )
    return Told(change["model"], change["id"], change["name"], words, before, after)


def _names_of_links(changes: Iterable[Difference]) -> Names:
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
