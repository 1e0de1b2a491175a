"""The entry that is open now: who acts, on what, and which rows were touched so far."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, Protocol

from django.db import DEFAULT_DB_ALIAS, models, transaction

from lims.record import clock, doors, triggers
from lims.record.differences import (
    Change,
    State,
    Touched,
    differences,
    state_of,
    utc_text,
)
from lims.record.refusals import GateError
from specs import chain

SYSTEM_ACCOUNT = "kettlemark"
SYSTEM_NAME = "Kettlemark"


class Actor(Protocol):
    """Whoever an entry is by: a person, told by account and printed name."""

    account: Any
    name: Any


class OpenEntry:
    """One act being recorded. `about` and `note` may be set until the block is left."""

    def __init__(
        self, *, by: Actor | None, verb: str, about: Any, reason: str, note: str
    ) -> None:
        self.account = by.account if by else SYSTEM_ACCOUNT
        self.printed_name = by.name if by else SYSTEM_NAME
        self.verb = verb
        self.about = about
        self.reason = reason
        self.note = note
        self.using = DEFAULT_DB_ALIAS
        self.at = clock.now()
        self.previous_seq = 0
        self.previous_head = ""
        self.seq: int | None = None
        self.head: str | None = None
        self._before: dict[tuple[type[models.Model], Any], State | None] = {}
        self._names: dict[tuple[type[models.Model], Any], str] = {}
        self._together: list[Change] = []

    def stored(self, row: models.Model) -> State | None:
        """The row as the database has it now, or None; remembers the first such state."""
        if row.pk is None:
            return None
        found = _rows(type(row), [row.pk], self.using).get(row.pk)
        state = state_of(found) if found else None
        self._before.setdefault(_place(row), state)
        return state

    def touched(self, row: Any) -> None:
        """Remember a row that was saved, or is about to go, and its name."""
        self._before.setdefault(_place(row), None)
        self._names[_place(row)] = row.record_key()[2]

    def told_together(self, change: Change) -> None:
        """Tell of rows that were added together (lims.record.bulk)."""
        self._together.append(change)

    def changes(self) -> list[Change]:
        """The differences between the first state of each touched row and its state now."""
        after = self._states_now()
        return self._together + [
            change
            for place, before in self._before.items()
            if place in self._names
            for change in differences(
                Touched(*place, self._names[place]), before, after.get(place)
            )
        ]

    def _states_now(self) -> dict[tuple[type[models.Model], Any], State]:
        by_model: dict[type[models.Model], list[Any]] = {}
        for model, pk in self._names:
            by_model.setdefault(model, []).append(pk)
        return {
            (model, pk): state_of(row)
            for model, pks in by_model.items()
            for pk, row in _rows(model, pks, self.using).items()
        }


_open: ContextVar[OpenEntry | None] = ContextVar("open_entry", default=None)


def demand(row: models.Model, using: str | None) -> OpenEntry:
    """The open entry that this row may be written in."""
    it = _open.get()
    if it is None:
        raise GateError(
            f"A {row._meta.verbose_name} is written only inside an entry of the record: "
            "no record, no write."
        )
    if using not in {None, it.using}:
        raise GateError("An entry and what it tells of live in one database.")
    return it


def current() -> OpenEntry | None:
    """The open entry, if one is."""
    return _open.get()


@contextmanager
def entry(
    *,
    by: Actor | None,
    verb: str,
    about: Any = None,
    reason: str | None = None,
    note: str = "",
) -> Iterator[OpenEntry]:
    """Open the gate for one act and record it: everything in the block, or nothing.

    `by=None` is the program itself. Entries do not nest: an action calls helpers, never
    another action, inside its block.
    """
    if _open.get() is not None:
        raise GateError(
            "An entry is open already: an entry inside an entry is refused."
        )
    it = OpenEntry(by=by, verb=verb, about=about, reason=reason or "", note=note)
    with transaction.atomic(using=it.using, durable=True):
        doors.lock_tail(it.using)
        it.at = clock.now()  # only now is it this entry's turn: times follow the order
        triggers.demand_all(it.using)
        it.previous_seq, it.previous_head = _tail(it.using)
        doors.open_gate(it.using)
        token = _open.set(it)
        try:
            yield it
            _write(it)
        finally:
            _open.reset(token)
        doors.close_gate(it.using)


def _write(it: OpenEntry) -> None:
    changes = it.changes()
    if not changes and not it.note:
        raise GateError(f"The entry “{it.verb}” changes nothing and has no note.")
    if it.about is None:
        raise GateError(f"The entry “{it.verb}” does not say what it is about.")
    columns = columns_of(it, changes)
    _entries().using(it.using).create(**columns)
    it.seq, it.head = columns["seq"], columns["hash"]


def columns_of(it: OpenEntry, changes: Iterable[Change]) -> dict[str, Any]:
    """The entry as it is stored, chained to the one before it."""
    kind, key, name = it.about.record_key()
    told = {
        "seq": it.previous_seq + 1,
        "at": utc_text(it.at),
        "account": str(it.account),
        "printed_name": str(it.printed_name),
        "verb": it.verb,
        "about_kind": str(kind),
        "about_key": str(key),
        "about_name": str(name),
        "reason": it.reason,
        "note": it.note,
    }
    content = chain.canonical(
        told | {"changes": [change._asdict() for change in changes]}
    )
    return told | {
        "content": content.decode(),
        "previous": it.previous_head,
        "hash": chain.next_head(it.previous_head, content),
    }


def _entries() -> Any:
    from lims.record.models import Entry  # the model's mixins stand on this module

    return Entry.objects


def _tail(using: str) -> tuple[int, str]:
    last = _entries().using(using).order_by("-seq").values_list("seq", "hash").first()
    return last or (0, chain.FIRST_HEAD)


def _place(row: models.Model) -> tuple[type[models.Model], Any]:
    return row._meta.concrete_model or type(row), row.pk


def _rows(
    model: type[models.Model], pks: list[Any], using: str
) -> dict[Any, models.Model]:
    return model._base_manager.using(using).order_by().in_bulk(pks)
