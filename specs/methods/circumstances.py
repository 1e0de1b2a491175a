"""What a method set up by its settings asks to be recorded beside the reading: temperature, hours, shear rate, apparatus.

The setting `asked` names circumstances by commas; "temperature 51 to 53" also states
the window outside which a value cannot count.
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
    r"(?P<name>[a-z ]+?)(?: (?P<low>-?[0-9.]+) to (?P<high>-?[0-9.]+))?"
)


class CircumstanceRefused(Refused):
    """A setting that names no circumstance kept here."""


@dataclass(frozen=True)
class Asked:
    """A circumstance to be recorded, and the window in which it must lie."""

    condition: Condition
    window: tuple[Decimal, Decimal] | None


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
            "where needed with a window such as temperature 51 to 53."
        )
    if found["low"] is None:
        return Asked(condition, None)
    low, high = read(found["low"]).value, read(found["high"]).value
    if low > high:
        raise CircumstanceRefused(
            f"The window {low} to {high} is upside down: write the smaller number first."
        )
    return Asked(condition, (low, high))


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
    low, high = asked.window
    return Bar(
        condition.key,
        f"Stored, cannot count: {condition.label.lower()} was {number} {condition.unit}, "
        f"the method asks for {low} to {high} {condition.unit}.",
        "Run the test again within the window, or correct the number.",
    )
