"""What a method set up by its settings asks to be recorded beside the reading: temperature, hours, shear rate, apparatus.

The setting `asked` names circumstances by commas. "temperature 51 to 53" also states
the window outside which a value cannot count; "temperature at -20" only what the
characteristic is at, where no tolerance is known: the house allows 3 °C either way
(common practice, no source), so that a run of another characteristic does not count.
"""

import re
from dataclasses import dataclass
from decimal import Decimal

from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Parameter,
    Parameters,
    setting,
)
from specs.numbers import Refused, read

CIRCUMSTANCES = {
    "temperature": Condition("temperature", "Temperature of the test", "number", "°C"),
    "drying": Condition("drying", "Temperature of drying", "number", "°C"),
    "hours": Condition("hours", "Length of the test", "number", "h"),
    "shear rate": Condition("shear_rate", "Shear rate", "number", "1/s"),
    "load": Condition("load", "Load", "number", "N"),
    "speed": Condition("speed", "Speed", "number", "1/min"),
}
_ASKED = re.compile(
    r"(?P<name>[a-z ]+?)"
    r"(?: (?P<low>-?[0-9.]+) to (?P<high>-?[0-9.]+)| at (?P<aim>-?[0-9.]+))?"
)
HOUSE = {"temperature": Decimal(3)}  # either way of what a characteristic is at


class CircumstanceRefused(Refused):
    """A setting that names no circumstance kept here."""


@dataclass(frozen=True)
class Asked:
    """A circumstance to be recorded, and the window in which it must lie."""

    condition: Condition
    window: tuple[Decimal, Decimal] | None
    aim: Decimal | None = (
        None  # what the characteristic is at; the window is the house's
    )


def read_asked(text: str) -> tuple[Asked, ...]:
    """The circumstances that a setting names. Raises CircumstanceRefused."""
    return tuple(_one(part.strip()) for part in text.split(",") if part.strip())


ASKED = Parameter("asked", "Conditions to record", "", check=read_asked)
APPARATUS = Parameter("apparatus", "Kind of apparatus", "")


def conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """The apparatus, if the laboratory wants it named, and what the settings ask for."""
    kind = setting(parameters, APPARATUS)
    named = Condition(
        "apparatus", "Apparatus", "instrument", required=False, instrument_kind=kind
    )
    asked = read_asked(setting(parameters, ASKED))
    return (*([named] if kind else []), *(each.condition for each in asked))


def window_bars(given: Given) -> tuple[Bar, ...]:
    """A bar for each circumstance outside its window, or known only by a bound."""
    asked = read_asked(setting(given.parameters, ASKED))
    return tuple(bar for each in asked if (bar := _bar(given, each)))


def _one(text: str) -> Asked:
    found = _ASKED.fullmatch(text)
    condition = CIRCUMSTANCES.get(found["name"]) if found else None
    if found is None or condition is None:
        raise CircumstanceRefused(
            f"“{text}” is no condition kept here: name {', '.join(CIRCUMSTANCES)}, "
            "where needed with a window such as temperature 51 to 53, or with what it is "
            "at such as temperature at -20."
        )
    if found["aim"] is not None:
        return _at(condition, read(found["aim"]).value)
    if found["low"] is None:
        return Asked(condition, None)
    low, high = read(found["low"]).value, read(found["high"]).value
    if low > high:
        raise CircumstanceRefused(
            f"The window {low} to {high} is upside down: write the smaller number first."
        )
    return Asked(condition, (low, high))


def _at(condition: Condition, aim: Decimal) -> Asked:
    house = HOUSE.get(condition.key)
    if house is None:
        raise CircumstanceRefused(
            f"“at {aim}” is for {' and '.join(HOUSE)} alone: write a window, such as "
            f"{aim} to {aim}."
        )
    return Asked(condition, (aim - house, aim + house), aim)


def _bar(given: Given, asked: Asked) -> Bar | None:
    condition, number = asked.condition, given.number(asked.condition)
    if number is None:
        return None
    if number.is_censored:
        return Bar(
            condition.key,
            f"Stored, cannot count: {condition.label.lower()} is only a bound, {number}.",
            "Write the number that was read.",
        )
    if asked.window is None or asked.window[0] <= number.value <= asked.window[1]:
        return None
    return Bar(
        condition.key,
        f"Stored, cannot count: {condition.label.lower()} was {number} {condition.unit}, "
        f"{_asked_in_words(asked, asked.window)}.",
        "Run the test again within the window, or correct the number.",
    )


def _asked_in_words(asked: Asked, window: tuple[Decimal, Decimal]) -> str:
    unit = asked.condition.unit
    if asked.aim is None:
        return f"the method asks for {window[0]} to {window[1]} {unit}"
    return (
        f"this characteristic is at {asked.aim} {unit}; the house allows "
        f"{window[1] - asked.aim} {unit} more or less"
    )
