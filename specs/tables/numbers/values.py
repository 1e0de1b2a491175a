"""A column of numbers: each different cell read once, in the unit of its characteristic, what is odd asked once."""

from collections.abc import Callable
from dataclasses import replace

from specs.tables.asking import LEAVE, Column, left_out
from specs.tables.known import Measured
from specs.tables.numbers import single
from specs.tables.numbers.converting import same_measure, with_unit
from specs.tables.numbers.doubts import (
    ask_of_blanks,
    ask_of_millimetres,
    ask_of_range,
    ask_of_repeats,
)
from specs.tables.numbers.figures import (
    Figure,
    Places,
    Reading,
    in_unit_of,
    taken,
    waits,
)
from specs.tables.numbers.refusals import (
    OTHER_UNIT,
    refuse,
    refuse_negative,
    refuse_what_is_no_number,
)
from specs.tables.numbers.single import Found, found_in
from specs.tables.numbers.unit_questions import MATTER as UNIT
from specs.tables.numbers.unit_questions import Unitless, unit_of_each
from specs.tables.saying import Fate, Said
from specs.tables.seen import Key


def read_numbers(
    column: Column,
    measured: Measured,
    stated: str,
    places: Places,
    says_mm: Callable[[int], bool],
) -> dict[Key, Said]:
    """What becomes of each different cell of a column of numbers.

    `stated` is the unit of the head, `says_mm` tells whether the remark of a place speaks
    of millimetres. Values come in the unit of the characteristic; what is asked gathers
    in the column. A cell that waits or is refused carries as its value what is proposed.
    """
    found = {key: found_in(*key) for key in places}
    reading = Reading(column, measured, places, {}, {})
    reading.said |= {
        key: Said(Fate.TAKEN, single.NOT_TESTED, rule=f"{single.NOT_TESTED}: {it.rule}")
        for key, it in found.items()
        if it.number is None and not it.matter
    }
    refuse_what_is_no_number(reading, found)
    ask_of_repeats(reading, found)
    ask_of_blanks(reading, found)
    for key, it in found.items():
        if it.number is not None and not it.matter:
            rules = (it.rule,) if it.rule else ()
            reading.figures[key] = Figure(it.number, it.unit, rules)
    refuse_negative(reading)
    bring_into_unit(reading, stated)
    ask_of_millimetres(reading, says_mm)
    ask_of_range(reading)
    reading.settle(list(reading.figures), lambda key: taken(reading.figures[key]))
    return reading.said


def bring_into_unit(reading: Reading, stated: str) -> None:
    """Bring every number into the unit of the characteristic."""
    _units_of_cells(reading)
    bare = [
        Unitless(key, it.number, reading.places[key])
        for key, it in reading.figures.items()
        if not it.unit
    ]
    others = [it.number.value for it in reading.figures.values() if it.unit]
    units, told = unit_of_each(reading.column, reading.measured, stated, bare, others)
    for it in bare:
        _in_unit(reading, it.key, units[it.key], told)


def _units_of_cells(reading: Reading) -> None:
    """Numbers that state their unit themselves; what measures something else is refused."""
    unit = reading.measured.unit
    strange = {}
    for key, it in list(reading.figures.items()):
        if not it.unit:
            continue
        if _is_its_own(it.unit, unit):
            reading.figures[key] = replace(it, unit=unit or it.unit)
        elif same_measure(it.unit, unit):
            reading.figures[key] = in_unit_of(it, it.unit, reading.measured)
        else:
            why = f"{with_unit(it.number, it.unit)} is not in {unit or 'a number alone'}: write what was read."
            strange[key] = Found(matter=OTHER_UNIT, why=why)
    if strange:
        refuse(reading, OTHER_UNIT, list(strange), strange)


def _is_its_own(stated: str, unit: str) -> bool:
    """Whether a cell states the very unit of the characteristic, if by a shorter word."""
    if stated == "%":
        return "%" in unit
    return stated == unit or (stated == "°" and unit == "°C")


def _in_unit(reading: Reading, key: Key, unit: str, told: str) -> None:
    figure = reading.figures[key]
    if unit == LEAVE:
        reading.settle([key], lambda _: left_out("in an unknown unit."))
    elif not unit and reading.measured.unit:
        why = "In which unit does it stand?"
        reading.settle([key], lambda _: waits(reading.column, UNIT, figure, why))
    elif unit in {"", reading.measured.unit}:
        rules = (*figure.rules, told) if told else figure.rules
        reading.figures[key] = replace(figure, unit=unit, rules=rules)
    else:
        reading.figures[key] = in_unit_of(figure, unit, reading.measured)
