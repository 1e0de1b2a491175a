"""Instruments as their pages show them: grouped by what may be done with them today, each with checks and uses."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import Http404

from lims.bench.models import Condition, Test
from lims.instruments import queries, rules
from lims.instruments.failures import failure_of
from lims.instruments.models import Instrument
from lims.instruments.queries import Standing
from lims.instruments.reference_queries import materials_for
from lims.people.days import today
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.people.rules import refusal_of
from lims.screens.instruments.forms import ReasonForm
from specs.control.kinds import kind_of

State = Instrument.State
GROUPS: tuple[tuple[str, str], ...] = (
    (State.IN_SERVICE, "The last check found them fit, and it is in date."),
    (
        State.OVERDUE,
        "No check is in date. Readings are kept, but no verdict rests on them.",
    ),
    (State.OUT_OF_SERVICE, "Not to be used until a check finds them fit."),
    (State.RETIRED, "Out of use for good; their checks stay readable."),
)
MOST_USES = 12
ACTS: tuple[tuple[str, str, str], ...] = (
    ("take-out", "Take out of service", "It may not be used until it is put back."),
    ("put-back", "Put back in service", "Asks for a check since that found it fit."),
    ("retire", "Retire", "For good: the number is not used again."),
)


@dataclass(frozen=True)
class Group:
    """The instruments in one state."""

    state: str
    key: str
    note: str
    rows: list[Standing]


@dataclass(frozen=True)
class Use:
    """A test that the instrument was used in, and its state at that time."""

    test: Test
    state: str
    at: dt.datetime
    by: str


@dataclass(frozen=True)
class Act:
    """Something that can be done to the instrument, or the sentence why not now."""

    key: str
    words: str
    note: str
    form: ReasonForm
    refusal: str


def list_page() -> dict[str, Any]:
    rows = queries.with_state(on=today())
    rows.sort(key=lambda row: (row.instrument.kind, row.instrument.number))
    groups = [
        Group(
            state, state.replace(" ", "-"), note, [r for r in rows if r.state == state]
        )
        for state, note in GROUPS
    ]
    return {
        "groups": [group for group in groups if group.rows],
        "answer": answer_of(rows),
        "on": today(),
    }


def answer_of(rows: Sequence[Standing]) -> str:
    """How many may be used today, which not, and which soon ask for a check."""
    in_use = [row for row in rows if row.state != State.RETIRED]
    if not in_use:
        return "May I use this today? No instrument is kept here yet."
    usable = [row for row in in_use if row.is_in_service]
    sentences = [
        f"May I use this today? {len(usable)} of {len(in_use)} instruments may be used."
    ]
    for state, what in ((State.OVERDUE, "overdue"), (State.OUT_OF_SERVICE, "out")):
        numbers = [str(row.instrument) for row in in_use if row.state == state]
        if numbers:
            whole = "out of service" if what == "out" else what
            sentences.append(f"{', '.join(numbers)} {_is(numbers)} {whole}.")
    soon = [str(row.instrument) for row in usable if row.is_soon]
    if soon:
        sentences.append(
            f"{', '.join(soon)} {_is(soon)} to be checked within {queries.SOON} days."
        )
    return " ".join(sentences)


def _is(numbers: Sequence[str]) -> str:
    return "is" if len(numbers) == 1 else "are"


def instrument_or_404(number: str) -> Instrument:
    try:
        return queries.instrument(number)
    except Instrument.DoesNotExist:
        raise Http404 from None


def one_page(
    number: str, person: Person, tried: dict[str, ReasonForm] | None = None
) -> dict[str, Any]:
    """The page of one instrument; `tried` holds a form that was refused, by its act."""
    row = instrument_or_404(number)
    on = today()
    return {
        "instrument": row,
        "version": row.version,
        "state": row.state_on(on),
        "answer": answer_for(row, on),
        "checks": list(row.checks.select_related("recorded_by")),
        "uses": uses_of(row),
        "acts": acts_for(row, person, tried or {}),
        "soon": "due soon" if queries.is_due_soon(row, on) else "",
        "has_material": materials_for(row.kind, on=on).exists(),
        "has_failed": failure_of(row) is not None,
        "practice": kind_of(row.kind),
        "may_check": allowed(person, Permission.CHECK_INSTRUMENTS)
        and row.state != State.RETIRED,
    }


def answer_for(row: Instrument, on: dt.date) -> str:
    """Whether it may be used today, in a sentence."""
    words = queries.state_in_words(row, on).rstrip(".")
    if row.state_on(on) == State.IN_SERVICE:
        left = (row.due_on - on).days if row.due_on else 0
        days = (
            "today is the last day"
            if left == 0
            else f"{left} day{'s'[: left != 1]} left"
        )
        return f"Yes, it may be used today: the last check is in date, {days}."
    if row.state == State.RETIRED:
        return f"No: {words}. Use another of its kind."
    if row.state == State.OUT_OF_SERVICE:
        return f"No: {words}. Check it, then put it back."
    return f"No: {words}. What is read on it is kept, but no verdict rests on it. Check it and record what was found."


def uses_of(row: Instrument) -> list[Use]:
    """The last tests that it was used in, the latest first."""
    conditions = (
        Condition.objects.filter(instrument=row, replaced_by=None)
        .select_related(
            "saved_by",
            "determination__test__characteristic",
            "determination__test__sample__batch__product",
        )
        .order_by("-id")[: MOST_USES * 5]
    )
    uses: dict[int, Use] = {}
    for it in conditions:
        test = it.determination.test
        use = Use(test, it.instrument_state, it.saved_at, it.saved_by.name)
        uses.setdefault(test.pk, use)
    return list(uses.values())[:MOST_USES]


def acts_for(
    row: Instrument, person: Person, tried: dict[str, ReasonForm]
) -> list[Act]:
    """What this person may do to it; none for those whose role does not keep instruments."""
    if not allowed(person, Permission.KEEP_INSTRUMENTS) or row.state == State.RETIRED:
        return []
    refusals = {
        "take-out": refusal_of(rules.check_in_service)(row),
        "put-back": refusal_of(rules.check_may_come_back)(row, today=today()),
        "retire": "",
    }
    is_out = row.state == State.OUT_OF_SERVICE
    hidden = "take-out" if is_out else "put-back"
    return [
        Act(key, words, note, tried.get(key) or _form(row, key), refusals[key])
        for key, words, note in ACTS
        if key != hidden
    ]


def _form(row: Instrument, key: str) -> ReasonForm:
    return ReasonForm(initial={"version": row.version}, auto_id=f"{key}-%s")
