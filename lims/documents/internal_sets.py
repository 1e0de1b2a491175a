"""Every determination of a test as an internal copy tells it: what was read, under which circumstances, what became of it, who and when."""

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lims.bench.evaluation import conditions_of, slots_of
from lims.bench.models import Condition, Determination, Reading, Test, Trace
from lims.people.queries import site_zone
from lims.wording import dates, numbers


@dataclass(frozen=True, slots=True)
class SetTold:
    """One determination."""

    place: int
    readings: tuple[str, ...]
    circumstances: tuple[str, ...]
    value: str
    says: str
    state: str
    why: tuple[str, ...]  # the reason it was set aside, and what kept it from counting
    who: tuple[str, ...]

    @property
    def kind(self) -> str:
        return self.state.replace(" ", "-")


@dataclass(frozen=True, slots=True)
class TestTold:
    """One test with all its determinations."""

    __test__ = False  # not a test of the program

    title: str
    sets: tuple[SetTold, ...]


def test_told(test: Test) -> TestTold | None:
    """A test with its determinations in their order; nothing where none was begun."""
    determinations = list(test.determinations.all())
    if not determinations:
        return None
    edition = f", {test.edition}" if test.edition else ""
    return TestTold(
        f"{test.characteristic.in_full}, sample {test.sample}{edition}",
        tuple(_set(each, test) for each in determinations),
    )


def _set(it: Determination, test: Test) -> SetTold:
    readings, conditions = list(it.readings.all()), list(it.conditions.all())
    return SetTold(
        place=it.place,
        readings=(*_readings(test, readings), *map(_trace, it.traces.all())),
        circumstances=tuple(_conditions(test, conditions)),
        value=numbers.shown(it.reported),
        says=it.says,
        state="begun, not accepted" if it.state == it.State.BEGUN else it.state,
        why=tuple(_why(it)),
        who=tuple(_who(it, [*readings, *conditions])),
    )


def _readings(test: Test, rows: Sequence[Reading]) -> Iterable[str]:
    for slot in slots_of(test.characteristic):
        given = [row for row in rows if row.slot == slot.key]
        if given:
            label = ", ".join(part for part in (slot.row, slot.column) if part)
            unit = numbers.unit_shown(given[-1].unit)
            yield f"{label or slot.label} {_newest(given)} {unit}".strip()


def _conditions(test: Test, rows: Sequence[Condition]) -> Iterable[str]:
    for asked in conditions_of(test.characteristic):
        given = [row for row in rows if row.key == asked.key]
        if given:
            told = f"{asked.label} {_newest(given)} {asked.unit}".strip()
            state = given[-1].instrument_state
            yield f"{told} ({state})" if state else told


def _newest(rows: Sequence[Reading] | Sequence[Condition]) -> str:
    """The text that stands, and each one before it with the reason and the person that changed it."""
    *_, last = rows
    changes = [
        f"first {_text(row.replaces)}, changed by {row.saved_by.name}: {row.reason}"
        for row in rows
        if row.replaces is not None
    ]
    return f"{_text(last)} ({'; '.join(changes)})" if changes else _text(last)


def _text(row: Reading | Condition) -> str:
    """As it was typed; a time on the laboratory's clock."""
    if isinstance(row, Condition) and "T" in row.value:
        try:
            moment = dt.datetime.fromisoformat(row.value)
        except ValueError:
            return row.text
        return _at(moment)
    return row.text


def _trace(trace: Trace) -> str:
    return f"curve {trace.name}, {trace.count} points, SHA-256 {trace.sha256[:16]}"


def _why(it: Determination) -> Iterable[str]:
    if it.reason:
        by = "by the repeat rule: " if it.by_rule else ""
        yield f"{by}{it.reason}"
    for bar in it.bars:
        yield str(bar["sentence"])


def _who(it: Determination, rows: Sequence[Reading | Condition]) -> Iterable[str]:
    """Each person once, with the first and the last moment of what they saved."""
    moments: dict[str, list[dt.datetime]] = {}
    for row in rows:
        moments.setdefault(row.saved_by.name, []).append(row.saved_at)
    for name, saved in moments.items():
        first, last = _at(min(saved)), _at(max(saved))
        yield f"{name}, {first}" if first == last else f"{name}, {first} to {last}"
    if not moments:
        yield f"{it.begun_by.name}, {_at(it.begun_at)}"
    if it.set_aside_by is not None:
        yield f"set aside by {it.set_aside_by.name}"


def _at(moment: dt.datetime) -> str:
    return dates.day_time(moment, site_zone())
