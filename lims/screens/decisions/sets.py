"""What was read: the determinations of a test as a review unfolds them, those set aside with their reason."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from lims.bench.evaluation import conditions_of, slots_of
from lims.bench.evaluation import held as held_on
from lims.bench.models import Condition, Determination, Reading, Test
from lims.products.models import Requirement
from lims.screens.decisions.on_limits import bounds_of, is_number
from lims.screens.zone import zone
from lims.wording import dates, numbers
from specs.numbers import shortened


@dataclass(frozen=True)
class Set:
    """One determination: what was read, under which conditions, what became of it."""

    place: int
    readings: tuple[str, ...]
    mean: str
    spread: str
    conditions: str
    says: str
    state: str
    reason: str
    who: str
    bars: tuple[str, ...]
    bar: Mapping[str, Any] | None

    @property
    def is_set_aside(self) -> bool:
        return self.state == Determination.State.SET_ASIDE


@dataclass(frozen=True)
class Unfolded:
    """The sets of one test."""

    test: Test
    title: str
    unit: str
    is_penetration: bool
    sets: tuple[Set, ...]
    is_open: bool


def unfolded(test: Test, requirement: Requirement | None) -> Unfolded | None:
    """Every determination of a test; nothing while none was begun, or for a computed value."""
    determinations = list(test.determinations.all())
    if not determinations:
        return None
    is_penetration = test.characteristic.procedure == "cone penetration"
    drawn = requirement if _has_ruler(requirement, test) else None
    return Unfolded(
        test=test,
        title=_title(test, requirement, determinations),
        unit=test.characteristic.unit,
        is_penetration=is_penetration,
        sets=tuple(_set(each, test, drawn) for each in determinations),
        is_open=len(determinations) > 1 or _was_changed(determinations),
    )


def _has_ruler(requirement: Requirement | None, test: Test) -> bool:
    return (
        requirement is not None
        and requirement.characteristic_id == test.characteristic_id
        and test.characteristic.kind == "number"
        and bool(requirement.lower or requirement.upper)
    )


def _title(
    test: Test, requirement: Requirement | None, determinations: list[Determination]
) -> str:
    """`Readings: 2 sets, 1 set aside`, with the name where it is not the row's own."""
    is_own = (
        requirement is not None
        and requirement.characteristic_id == test.characteristic_id
    )
    name = "Readings" if is_own else test.characteristic.in_full
    aside = sum(d.state == Determination.State.SET_ASIDE for d in determinations)
    count = len(determinations)
    sets = "1 set" if count == 1 else f"{count} sets"
    tail = f", {aside} set aside" if aside else ""
    return f"{name}: {sets}{tail}"


def _was_changed(determinations: list[Determination]) -> bool:
    return any(
        row.replaces_id is not None for each in determinations for row in _rows(each)
    )


def _rows(determination: Determination) -> list[Reading | Condition]:
    return [*determination.readings.all(), *determination.conditions.all()]


def _set(
    determination: Determination, test: Test, requirement: Requirement | None
) -> Set:
    has = held_on(determination)
    mean = determination.parts.get("mean", "")
    return Set(
        place=determination.place,
        readings=tuple(_readings(test, has.readings)),
        mean=shortened(Decimal(mean)) if mean else "",
        spread=str(determination.parts.get("spread", "")),
        conditions="; ".join(_conditions(test, has.conditions)),
        says=determination.says,
        state=determination.state,
        reason=determination.reason,
        who=_who(determination),
        bars=tuple(str(bar["sentence"]) for bar in determination.bars),
        bar=_bar(determination, has.readings, requirement),
    )


def _readings(test: Test, readings: Mapping[str, Reading]) -> list[str]:
    told = []
    is_penetration = test.characteristic.procedure == "cone penetration"
    for slot in slots_of(test.characteristic):
        reading = readings.get(slot.key)
        if reading is None:
            continue
        text = reading.text if slot.choices else numbers.shown(reading.text)
        if is_penetration:
            told.append(text)
            continue
        label = ", ".join(part for part in (slot.row, slot.column) if part)
        told.append(f"{label or slot.label} {text} {reading.unit}".strip())
    return told


def _conditions(test: Test, conditions: Mapping[str, Condition]) -> list[str]:
    told = []
    for asked in conditions_of(test.characteristic):
        condition = conditions.get(asked.key)
        if condition is not None:
            told.append(f"{asked.label} {condition_text(condition, asked.kind)}")
            if asked.unit:
                told[-1] += f" {asked.unit}"
    return told


def condition_text(condition: Condition, kind: str) -> str:
    """A condition as it is read: a time on the laboratory's clock, all else as typed."""
    if kind == "time" and condition.value:
        moment = dt.datetime.fromisoformat(condition.value)
        return f"{dates.day(moment, zone(), year=False)} {dates.clock(moment, zone(), seconds=True)}"
    return condition.text


def _who(determination: Determination) -> str:
    return ", ".join(sorted({row.saved_by.name for row in _rows(determination)}))


def _bar(
    determination: Determination,
    readings: Mapping[str, Reading],
    requirement: Requirement | None,
) -> dict[str, Any] | None:
    """The readings of a set on the ruler of its requirement, so that sets can be compared."""
    if requirement is None:
        return None
    if determination.test.characteristic.procedure != "cone penetration":
        return None
    read = [r.value for r in readings.values() if is_number(r.value)]
    kind = "aside" if determination.state == Determination.State.SET_ASIDE else "drops"
    return bounds_of(requirement) | {"internal": None, "small": True, kind: read}
