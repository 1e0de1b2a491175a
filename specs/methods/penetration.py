"""Cone penetration of grease (ASTM D217, ISO 2137; reduced cones ASTM D1403).

The result is the mean of three cone readings in tenths of a millimetre, kept
unrounded and reported once to the whole unit, half to even. The reduced-cone
equations and the house spread limits are not stated by a source that could be read
freely; both are settings of the laboratory.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import mean, round_to_step
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    implausible,
    setting,
    unanswered,
)
from specs.methods.working import BEFORE_READING, WORKING, working_bars
from specs.numbers import Number, Refused, read, shortened, to_decimal

UNIT = "0.1 mm"
COLDEST, WARMEST = Decimal("24.5"), Decimal("25.5")
READINGS = 3

# scale -> (factor, constant) of the equation to the full-scale cone
SCALES = {"full": ("1", "0"), "half": ("2", "5"), "quarter": ("3.75", "24")}
PLAUSIBLE = {"full": ("85", "500"), "half": ("40", "240"), "quarter": ("15", "125")}
HOUSE_SPREAD = {"0": "8", "60": "6", "10000": "10", "100000": "10"}

STROKES = Parameter("strokes", "Double strokes", "60", tuple(HOUSE_SPREAD))
SCALE = Parameter("scale", "Cone scale", "full", tuple(SCALES))
SPREAD_LIMIT = Parameter("spread_limit", "House limit of the spread", "", house=True)

TEMPERATURE = Condition("temperature", "Temperature of the grease", "number", "°C")
PENETROMETER = Condition(
    "penetrometer", "Penetrometer", "instrument", instrument_kind="penetrometer"
)
KEYS = tuple(f"cone_{place}" for place in range(1, READINGS + 1))

CAUTION = (
    "The cone is sharp and the worker moves: keep fingers clear, follow local codes "
    "and the safety data sheet of the grease, and ask the competent person when in doubt."
)


class PenetrationRefused(Refused):
    """The readings cannot belong to one determination."""


@dataclass(frozen=True)
class Cones:
    """What a set of cone readings gives: None while there are not three."""

    mean: Fraction | None
    reported: Decimal | None
    spread: Decimal | None
    accepted: bool


def from_cones(
    readings: Sequence[Decimal],
    scale: str = "full",
    spread_limit: Decimal | None = None,
) -> Cones:
    """Mean, reported value and spread of up to three readings in 0.1 mm.

    The mean is converted to the full-scale cone after averaging; the spread is that
    of the readings as read. Raises PenetrationRefused for more than three readings
    or an unknown scale.
    """
    if len(readings) > READINGS:
        raise PenetrationRefused(
            f"A determination has three cone readings, not {len(readings)}: "
            "begin another for further readings."
        )
    if scale not in SCALES:
        raise PenetrationRefused(f"“{scale}” is no scale: name full, half or quarter.")
    spread = max(readings) - min(readings) if readings else None
    if len(readings) < READINGS or spread is None:
        return Cones(None, None, spread, accepted=False)
    factor, constant = (Fraction(number) for number in SCALES[scale])
    value = mean(readings) * factor + constant
    within = spread_limit is None or spread <= spread_limit
    return Cones(value, round_to_step(value, "1"), spread, accepted=within)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """Three cone readings, in the order of reading."""
    scale = setting(parameters, SCALE)
    return tuple(
        Slot(key, f"Cone reading {place}", UNIT, plausible=PLAUSIBLE[scale])
        for place, key in enumerate(KEYS, 1)
    )


def conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """Instrument and temperature, and what the strokes before the reading need."""
    strokes = setting(parameters, STROKES)
    if strokes == "0":
        return (PENETROMETER, TEMPERATURE)
    if strokes == "60":
        return (PENETROMETER, TEMPERATURE, BEFORE_READING)
    return (*WORKING, PENETROMETER, TEMPERATURE, BEFORE_READING)


def carry_out(given: Given) -> Outcome:
    """The outcome of a set of three cone readings and its conditions."""
    numbers = [number for key in KEYS if (number := given.reading(key))]
    plain = [number.value for number in numbers if not number.is_censored]
    limit = read(_spread_limit(given.parameters)).value
    cones = from_cones(plain, setting(given.parameters, SCALE), limit)
    missing = unanswered(given, conditions(given.parameters))
    outcome = Outcome(
        complete=len(numbers) == READINGS and not missing,
        accepted=True,
        bars=(*_temperature_bars(given), *_working_bars(given), *_sense_bars(numbers)),
        asks=(*missing, *implausible(given, slots(given.parameters))),
        says=f"{len(numbers)} of {READINGS} cone readings",
    )
    return _with_value(outcome, cones, numbers, limit)


def _with_value(
    outcome: Outcome, cones: Cones, numbers: Sequence[Number], limit: Decimal
) -> Outcome:
    """The outcome with mean and spread, as it was while there are none."""
    if cones.mean is None or cones.reported is None or cones.spread is None:
        return outcome
    first, second, third = (number.canonical for number in numbers)
    spread = shortened(cones.spread, 4)
    fresh = (
        f"Take a fresh fill: the readings differ by {spread}, more than the house "
        f"limit of {shortened(limit, 4)}; a further reading can only widen it."
    )
    value = Number.of(to_decimal(cones.mean))
    return replace(
        outcome,
        accepted=cones.accepted,
        value=value,
        reported=Number.of(cones.reported),
        asks=outcome.asks if cones.accepted else (fresh, *outcome.asks),
        says=f"mean of {first}, {second} and {third}; spread {spread}",
        parts={
            "mean": value.canonical,
            "spread": f"{cones.spread:f}",
            "spread_limit": f"{limit:f}",
        },
    )


def _spread_limit(parameters: Parameters) -> str:
    return (
        setting(parameters, SPREAD_LIMIT)
        or (HOUSE_SPREAD[setting(parameters, STROKES)])
    )


def _temperature_bars(given: Given) -> tuple[Bar, ...]:
    temperature = given.number(TEMPERATURE)
    if temperature is None:
        return ()
    if not temperature.is_censored and COLDEST <= temperature.value <= WARMEST:
        return ()
    return (
        Bar(
            "temperature",
            f"Stored, cannot count: the grease was at {temperature} °C, "
            f"the method asks for {COLDEST} to {WARMEST} °C.",
            "Bring it to 25 °C and take a fresh fill, or correct the temperature.",
        ),
    )


def _working_bars(given: Given) -> tuple[Bar, ...]:
    strokes = int(setting(given.parameters, STROKES))
    read_at = [given.read_at(key) for key in KEYS if given.reading(key)]
    return working_bars(given, strokes, min(read_at)) if read_at else ()


def _sense_bars(numbers: Sequence[Number]) -> tuple[Bar, ...]:
    """A bound cannot be averaged, and no cone stops at or above the surface."""
    if all(not number.is_censored and number.value > 0 for number in numbers):
        return ()
    return (
        Bar(
            "reading",
            "Stored, cannot count: each cone reading is a plain number above 0.",
            "Read the scale again, or choose a method for so soft or hard a grease.",
        ),
    )


CONE_PENETRATION = Procedure(
    name="cone penetration",
    kind="number",
    unit=UNIT,
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(STROKES, SCALE, SPREAD_LIMIT),
)
