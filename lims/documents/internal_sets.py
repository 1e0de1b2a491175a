"""Every determination of a test as an internal copy tells it: what was read, under which circumstances, what became of it, who and when."""

import datetime as dt
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lims.bench.evaluation import allowed_of, conditions_of, held, slots_of
from lims.bench.models import Condition, Determination, Reading, Test, Trace
from lims.documents.pictures import picture
from lims.documents.words import held as held_together
from lims.drawing.onset import onset
from lims.drawing.runs import drawn_from, figures_of
from lims.people.queries import site_zone
from lims.wording import dates, numbers
from specs.methods.outcome import Slot

NUMBERED = re.compile(r"(.+) \d+")


@dataclass(frozen=True, slots=True)
class CurveTold:
    """The curve of a run, drawn with both lines where there are any; `told` are its figures."""

    title: str
    picture: str  # its address
    told: str


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
    curve: CurveTold | None = None

    @property
    def kind(self) -> str:
        return self.state.replace(" ", "-")


@dataclass(frozen=True, slots=True)
class TestTold:
    """One test with all its determinations."""

    __test__ = False  # not a test of the program

    title: str
    sets: tuple[SetTold, ...]
    told_at: int | None = (
        None  # the line that tells the sets, where it is an earlier one
    )


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
        curve=_curve(it, test),
    )


def _readings(test: Test, rows: Sequence[Reading]) -> Iterable[str]:
    """Each reading with its place; those of a table by its rows or columns, those of one kind behind one name."""
    given = [
        (slot, found)
        for slot in slots_of(test.characteristic)
        if (found := [row for row in rows if row.slot == slot.key])
    ]
    if given and all(slot.row and slot.column for slot, _ in given):
        return _of_table(given)
    if kind := _one_kind(given):
        *first, last = (found for _, found in given)
        told = [*map(_newest, first), _measured(last, last[-1].unit)]
        return [f"{kind}s: {', '.join(told)}"]
    return [f"{slot.label}: {_measured(it, it[-1].unit)}" for slot, it in given]


def _of_table(given: Sequence[tuple[Slot, Sequence[Reading]]]) -> Iterable[str]:
    """``Run 1: Observed = 185 °C, Block = 232 °C``: by rows or by columns, whichever are fewer."""
    rows = dict.fromkeys(slot.row for slot, _ in given)
    columns = dict.fromkeys(slot.column for slot, _ in given)
    by_row = len(rows) <= len(columns)
    for head in rows if by_row else columns:
        told = [
            f"{slot.column if by_row else slot.row} = {_measured(it, it[-1].unit)}"
            for slot, it in given
            if head == (slot.row if by_row else slot.column)
        ]
        yield held_together(f"{head}: {', '.join(told)}")


def _one_kind(given: Sequence[tuple[Slot, Sequence[Reading]]]) -> str:
    """``Cone reading`` of cone reading 1, 2 and 3 in one unit; empty where they differ."""
    kinds = {
        (found[1] if (found := NUMBERED.fullmatch(slot.label)) else "", it[-1].unit)
        for slot, it in given
    }
    return next(iter(kinds))[0] if len(given) > 1 and len(kinds) == 1 else ""


def _conditions(test: Test, rows: Sequence[Condition]) -> Iterable[str]:
    for asked in conditions_of(test.characteristic):
        given = [row for row in rows if row.key == asked.key]
        if given:
            told = f"{asked.label}: {_measured(given, asked.unit)}"
            state = given[-1].instrument_state
            yield f"{told} ({_state(given[-1])})" if state else told


def _state(use: Condition) -> str:
    """The state of an instrument when it was used, and who let the reading count all the same."""
    allowed = allowed_of(use)
    if allowed is None:
        return use.instrument_state
    return f"{use.instrument_state}; {allowed.allowed_by.name} let it count: {allowed.reason}"


def _measured(rows: Sequence[Reading] | Sequence[Condition], unit: str) -> str:
    """What stands with its unit, held together."""
    shown = numbers.unit_shown(unit)
    return f"{_newest(rows)}{numbers.NO_BREAK}{shown}" if shown else _newest(rows)


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
    """As it was typed; a time on the laboratory's clock, to the second: the house's minutes are counted from it."""
    if isinstance(row, Condition) and "T" in row.value:
        try:
            moment = dt.datetime.fromisoformat(row.value)
        except ValueError:
            return row.text
        return dates.day_time(moment, site_zone(), seconds=True)
    return row.text


def _curve(it: Determination, test: Test) -> CurveTold | None:
    """The newest curve of a set with the lines that its value rests on."""
    has = held(it)
    if has.trace is None:
        return None
    figures = figures_of(it, has)
    drawn = drawn_from(test.characteristic, it, has, figures)
    return CurveTold(
        title=f"Set {it.place}, {_trace(has.trace)}",
        picture=picture(onset(**drawn)),
        told="; ".join(f"{name}: {value}" for name, value in figures),
    )


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
