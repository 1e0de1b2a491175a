"""The sets of a test one beneath the other, in their order: what was read, what it gave, whether it stands, and if not by which rule or by whom."""

from collections.abc import Sequence
from dataclasses import dataclass

from lims.bench.evaluation import (
    Held,
    held,
    is_set_aside_by_hand,
    slots_of,
    typed_conditions_of,
)
from lims.bench.models import Determination, Reading, Test
from lims.screens.bench import vessels
from lims.screens.bench.curve_forms import CurveForm, TraceForm
from lims.screens.bench.forms import AsideForm, CorrectForm
from lims.wording.numbers import shown, with_unit
from specs.numbers import Number, NumberRefused, padded, shortened

State = Determination.State


@dataclass(frozen=True)
class Line:
    """One set as the list of sets shows it."""

    place: int
    state: str
    readings: str
    gives: str
    reason: str
    by: str
    is_open: bool  # its boxes stand above
    may_set_aside: bool = False
    correct_form: CorrectForm | None = None
    aside_form: AsideForm | None = None


@dataclass(frozen=True)
class Sent:
    """What was sent about one set and refused, to be shown again."""

    place: int
    aside: AsideForm | None = None
    correct: CorrectForm | None = None
    trace: TraceForm | None = None
    judged: CurveForm | None = None


def lines(
    test: Test,
    sets: Sequence[Determination],
    open_set: Determination | None,
    *,
    may_enter: bool,
    sent: Sent | None = None,
) -> list[Line]:
    """The list, once there is more to tell than the open set tells itself."""
    if len(sets) < 2 and (not sets or sets[0] is open_set):
        return []
    return [
        _line(test, each, is_open=each is open_set, may_enter=may_enter, sent=sent)
        for each in sets
    ]


def _line(
    test: Test,
    it: Determination,
    *,
    is_open: bool,
    may_enter: bool,
    sent: Sent | None,
) -> Line:
    has = held(it)
    answers = sent if sent is not None and sent.place == it.place else Sent(it.place)
    may_correct = may_enter and not is_open and not is_set_aside_by_hand(it)
    may_set_aside = may_correct and it.state == State.BEGUN
    return Line(
        place=it.place,
        state=it.state,
        readings="; ".join(_readings(test, it, has)),
        gives=_gives(test, it),
        reason=it.reason,
        by=_by(it),
        is_open=is_open,
        may_set_aside=may_set_aside,
        aside_form=answers.aside if may_set_aside else None,
        correct_form=(answers.correct or CorrectForm(choices_of(test, has)))
        if may_correct and (has.readings or has.trace)
        else None,
    )


def choices_of(test: Test, has: Held) -> list[tuple[str, str]]:
    """What a set holds and may be corrected: each reading and each condition, as it was typed."""
    it = test.characteristic
    found = [
        (slot.key, f"{slot.label}: {has.readings[slot.key].text}")
        for slot in slots_of(it)
        if slot.key in has.readings
    ]
    return found + [
        (asked.key, f"{asked.label}: {has.conditions[asked.key].text}")
        for asked in typed_conditions_of(it)
        if asked.key in has.conditions
    ]


def _readings(test: Test, it: Determination, has: Held) -> list[str]:
    """As typed, each with its unit where the set has several; a pressure also in kPa."""
    if has.trace is not None:
        return [f"curve {has.trace}"]
    units = vessels.units_of(it) if vessels.is_vessels(test.characteristic) else None
    rows = [
        has.readings[slot.key]
        for slot in slots_of(test.characteristic)
        if slot.key in has.readings
    ]
    if units is not None:
        return [_pressure(row, units) for row in rows]
    each = {row.unit for row in rows}
    if len(each) > 1 or not rows:
        return [_with_unit(row.text, row.unit) for row in rows]
    return [_with_unit(", ".join(shown(row.text) for row in rows), rows[0].unit)]


def _pressure(row: Reading, units: dict[str, str]) -> str:
    unit = units.get(row.slot.rsplit("_", 1)[1], vessels.KPA)
    kpa = vessels.in_kpa(row.value, unit)
    typed = f"{shown(row.text)} {unit}"
    return f"{typed} = {kpa} {vessels.KPA}" if kpa else typed


def _with_unit(text: str, unit: str) -> str:
    return with_unit(text, unit) if unit else text


def _gives(test: Test, it: Determination) -> str:
    """The value of a set with two decimals at most and those that are reported; as it stands where it is no number."""
    if not it.value:
        return ""
    try:
        number = Number.stored(it.value)
    except NumberRefused:
        return it.value
    reported = len(it.reported.partition(".")[2])
    figure = shown(f"{number.sign}{padded(shortened(number.value), reported)}")
    return _with_unit(figure, test.characteristic.unit)


def _by(it: Determination) -> str:
    if it.by_rule:
        return ""  # its reason names the rule
    if it.set_aside_by is not None:
        return f"by {it.set_aside_by}"
    return f"begun by {it.begun_by}"
