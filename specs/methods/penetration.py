"""Cone penetration of grease (ASTM D217, ISO 2137; reduced cones ASTM D1403).

The result is the mean of three cone readings in tenths of a millimetre, kept
unrounded and reported once to the whole unit, half to even. Reduced cones are
converted first (`reduced`), a rest after the strokes has rules of its own (`resting`).
No standard that could be read freely limits the spread: the limits are the house's.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
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
    above_nought,
    implausible,
    setting,
    unanswered,
)
from specs.methods.reduced import (
    FULL,
    SCALES,
    conversion,
    converted,
    reduced_parts,
    scope_bars,
)
from specs.methods.resting import (
    REST,
    REWORKED,
    is_reworked,
    rest_bars,
    rest_conditions,
    rest_doubts,
    rest_of,
)
from specs.methods.working import BEFORE_READING, WORKING, working_bars
from specs.numbers import Number, Refused, read, shortened, to_decimal

UNIT = "0.1 mm"
COLDEST, WARMEST = Decimal("24.5"), Decimal("25.5")
READINGS = 3

PLAUSIBLE = {"full": ("85", "500"), "half": ("40", "240"), "quarter": ("15", "125")}
HOUSE_SPREAD = {"0": "8", "60": "6", "10000": "10", "100000": "10"}

STROKES = Parameter("strokes", "Double strokes", "60", tuple(HOUSE_SPREAD))
SCALE = Parameter("scale", "Cone scale", FULL, tuple(SCALES))
SPREAD_LIMIT = Parameter(
    "spread_limit",
    "House limit of the spread, on the cone read",
    "",
    house=True,
    check=above_nought,
)

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
    scale: str = FULL,
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
    value = converted(mean(readings), scale)
    within = spread_limit is None or spread <= spread_limit
    return Cones(value, round_to_step(value, "1"), spread, accepted=within)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """Three cone readings, in the order of reading; after a rest each in a cup of its own."""
    scale, rest = setting(parameters, SCALE), _rest(parameters)
    name = "Cone reading" if scale == FULL else f"Reading on the {scale} cone"
    cup = "" if rest is None or is_reworked(parameters) else ", cup {place}"
    return tuple(
        Slot(
            key,
            f"{name} {place}{cup.format(place=place)}",
            UNIT,
            plausible=PLAUSIBLE[scale],
        )
        for place, key in enumerate(KEYS, 1)
    )


def conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """Instrument and temperature, and what the strokes before the reading need."""
    strokes = setting(parameters, STROKES)
    if _rest(parameters) is not None:
        return (*rest_conditions(parameters), PENETROMETER, TEMPERATURE)
    if strokes == "0":
        return (PENETROMETER, TEMPERATURE)
    if strokes == "60":
        return (PENETROMETER, TEMPERATURE, BEFORE_READING)
    return (*WORKING, PENETROMETER, TEMPERATURE, BEFORE_READING)


def carry_out(given: Given) -> Outcome:
    """The outcome of a set of three cone readings and its conditions."""
    numbers = [number for key in KEYS if (number := given.reading(key))]
    plain = [number.value for number in numbers if not number.is_censored]
    limit, scale = _spread_limit(given.parameters), setting(given.parameters, SCALE)
    cones = from_cones(plain, scale, limit)
    missing = unanswered(given, conditions(given.parameters))
    outcome = Outcome(
        complete=len(numbers) == READINGS and not missing,
        accepted=True,
        bars=(
            *temperature_bars(given),
            *_working_bars(given),
            *sense_bars(numbers),
            *(() if cones.mean is None else scope_bars(cones.mean, scale)),
        ),
        asks=(
            *missing,
            *implausible(given, slots(given.parameters)),
            *_rest_doubts(given),
        ),
        says=f"{len(numbers)} of {READINGS} cone readings",
    )
    return _with_value(outcome, cones, plain, limit, scale)


def _with_value(
    outcome: Outcome,
    cones: Cones,
    readings: Sequence[Decimal],
    limit: Decimal | None,
    scale: str,
) -> Outcome:
    """The outcome with mean and spread, as it was while there are none."""
    if cones.mean is None or cones.reported is None or cones.spread is None:
        return outcome
    fresh = ""
    if limit is not None and not cones.accepted:
        fresh = (
            f"Take a fresh fill: the readings differ by {shortened(cones.spread, 4)}, more "
            f"than the house limit of {shortened(limit, 4)}; "
            "a further reading can only widen it."
        )
    value = Number.of(to_decimal(cones.mean))
    spread = Fraction(cones.spread) * Fraction(SCALES[scale][0])
    stated = {} if limit is None else {"spread_limit": f"{limit:f}"}
    return replace(
        outcome,
        accepted=cones.accepted,
        value=value,
        reported=Number.of(cones.reported),
        asks=(fresh, *outcome.asks) if fresh else outcome.asks,
        says=_says(readings, cones.spread, scale, limit),
        parts={
            "mean": value.canonical,
            "spread": f"{to_decimal(spread):f}",
            **stated,
            **reduced_parts(readings, scale),
        },
    )


def _says(
    readings: Sequence[Decimal], spread: Decimal, scale: str, limit: Decimal | None
) -> str:
    first, second, third = (f"{reading:f}" for reading in readings)
    says = f"mean of {first}, {second} and {third}"
    cone = "" if scale == FULL else f" on the {scale} cone"
    if cone:
        says += f"{cone}, to full scale by {conversion(scale)}"
    no_limit = ", for which no house limit is set" if limit is None else ""
    return f"{says}; spread {shortened(spread, 4)}{cone}{no_limit}"


def _spread_limit(parameters: Parameters) -> Decimal | None:
    """In units of the cone that is read; the house figures hold for the full-scale cone."""
    stated = setting(parameters, SPREAD_LIMIT)
    if stated:
        return read(stated).value
    if setting(parameters, SCALE) != FULL:
        return None
    return read(HOUSE_SPREAD[setting(parameters, STROKES)]).value


def _rest(parameters: Parameters) -> timedelta | None:
    return rest_of(parameters, setting(parameters, STROKES))


def temperature_bars(given: Given) -> tuple[Bar, ...]:
    """A bar for grease outside 24.5 to 25.5 °C."""
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


def _first_read_at(given: Given) -> datetime | None:
    """When the first cone was read, None before any was."""
    return min((given.read_at(key) for key in KEYS if given.reading(key)), default=None)


def _working_bars(given: Given) -> tuple[Bar, ...]:
    strokes, rest = setting(given.parameters, STROKES), _rest(given.parameters)
    first = _first_read_at(given)
    if first is None:
        return ()
    if rest is not None:
        return rest_bars(given, rest, first)
    return working_bars(given, int(strokes), first)


def _rest_doubts(given: Given) -> tuple[str, ...]:
    rest, first = _rest(given.parameters), _first_read_at(given)
    return () if rest is None or first is None else rest_doubts(given, rest, first)


def sense_bars(numbers: Sequence[Number]) -> tuple[Bar, ...]:
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
    parameters=(STROKES, SCALE, SPREAD_LIMIT, REST, REWORKED),
)
