"""Questions to the instruments: which may be used on a day, and in what state each is."""

import datetime as dt
from dataclasses import dataclass

from django.db.models import Prefetch, QuerySet

from lims.instruments.models import Check, Instrument

SOON = 14  # days; common practice, no source


@dataclass(frozen=True)
class Standing:
    """An instrument with its state on a day and its latest check, if it has one."""

    instrument: Instrument
    state: str
    latest: Check | None
    is_soon: bool = False  # in service, to be checked within two weeks

    @property
    def is_in_service(self) -> bool:
        return self.state == Instrument.State.IN_SERVICE


def instrument(number: str) -> Instrument:
    """One instrument by its number; raises Instrument.DoesNotExist."""
    return Instrument.objects.get(number=number)


def kinds() -> list[str]:
    """The kinds of instrument that stand here."""
    found = Instrument.objects.order_by("kind").values_list("kind", flat=True)
    return list(found.distinct())


def in_service(*, kind: str, on: dt.date) -> QuerySet[Instrument]:
    """The instruments of a kind that may be used on a day."""
    return Instrument.objects.filter(
        kind=kind, state=Instrument.State.IN_SERVICE, due_on__gte=on
    )


def of_kind(kind: str, *, on: dt.date) -> list[Standing]:
    """The instruments of a kind that are not retired, with their state: those in service first."""
    found = [row for row in with_state(on=on) if row.instrument.kind == kind]
    offered = [row for row in found if row.state != Instrument.State.RETIRED]
    return sorted(offered, key=lambda row: not row.is_in_service)


def with_state(*, on: dt.date) -> list[Standing]:
    """Every instrument with its state on a day and its latest check, in two queries."""
    checks = Prefetch("checks", Check.objects.select_related("recorded_by"))
    rows = Instrument.objects.prefetch_related(checks)
    return [_standing(row, on) for row in rows]


def state_in_words(instrument: Instrument, on: dt.date) -> str:
    """The state on a day as people say it, with what explains it: "overdue 2 days"."""
    state = instrument.state_on(on)
    if state == Instrument.State.OVERDUE:
        return _overdue(instrument.due_on, on)
    if state == Instrument.State.IN_SERVICE and instrument.due_on:
        return f"in service, next check by {instrument.due_on.isoformat()}"
    return f"{state}: {instrument.state_reason}" if instrument.state_reason else state


def _standing(row: Instrument, on: dt.date) -> Standing:
    checks = list(row.checks.all())
    latest = checks[0] if checks else None
    return Standing(row, row.state_on(on), latest, is_due_soon(row, on))


def is_due_soon(row: Instrument, on: dt.date) -> bool:
    """Whether it is in service and its check runs out within two weeks."""
    due = row.due_on
    is_in = row.state_on(on) == Instrument.State.IN_SERVICE
    return is_in and due is not None and (due - on).days <= SOON


def _overdue(due_on: dt.date | None, on: dt.date) -> str:
    if due_on is None:
        return "overdue, never checked"
    days = (on - due_on).days
    return f"overdue {days} day{'s' if days != 1 else ''}"
