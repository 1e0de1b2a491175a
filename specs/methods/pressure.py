"""Fall of pressure in an oxygen vessel (ASTM D942): plateau less the stated hour.

The start is the highest pressure before the stated hour, never the first reading: the
vessel warms up before it loses. Gauge units; the fall is net of gas formed and may be
negative. The temperature correction (ideal gas, constant volume) is no part of D942.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.numbers import Refused, to_decimal
from specs.units import convert

REPORTED_TO = {"kPa": "1", "psi": "0.1", "bar": "0.01"}
HALF_AN_HOUR = Fraction(1, 2)
ZERO_CELSIUS = Fraction(27315, 100)


class PressureRefused(Refused):
    """A log of pressures from which no fall at the stated hour follows."""


@dataclass(frozen=True)
class Point:
    """One pressure: hours since the start, gauge pressure, temperature in °C."""

    hours: Decimal
    pressure: Decimal
    celsius: Decimal | None = None


@dataclass(frozen=True)
class Fall:
    """Start, fall and reported fall in the vessel's own unit; the fall in kPa too."""

    start: Decimal
    drop: Decimal
    drop_kpa: Decimal
    reported: Decimal
    corrected_drop: Decimal | None


def fall(
    unit: str,
    log: Sequence[Point],
    hours: Decimal,
    reference_c: Decimal | None = None,
    atmosphere: Decimal | None = None,
) -> Fall:
    """The fall of pressure after `hours`, from a log in kPa, psi or bar (gauge).

    `reference_c` (°C) and `atmosphere` (in the same unit) give a corrected fall as
    well. Raises PressureRefused for another unit, when no reading lies within half
    an hour of `hours`, or none before it, or when a correction lacks a temperature.
    """
    if unit not in REPORTED_TO:
        raise PressureRefused(f"“{unit}” is no gauge unit here: use kPa, psi or bar.")
    last = _at(log, hours)
    before = [point for point in log if point.hours < hours and point is not last]
    if not before:
        raise PressureRefused(f"There is no pressure before {hours:f} h to start from.")
    start = max(point.pressure for point in before)
    drop = to_decimal(Fraction(start) - Fraction(last.pressure))
    corrected_drop = None
    if reference_c is not None and atmosphere is not None:
        highest = max(corrected(point, reference_c, atmosphere) for point in before)
        corrected_drop = to_decimal(highest - corrected(last, reference_c, atmosphere))
    return Fall(
        start=start,
        drop=drop,
        drop_kpa=convert(drop, unit, "kPa"),
        reported=round_to_step(drop, REPORTED_TO[unit]),
        corrected_drop=corrected_drop,
    )


def corrected(point: Point, reference_c: Decimal, atmosphere: Decimal) -> Fraction:
    """The gauge pressure that the gas would have at the reference temperature."""
    if point.celsius is None:
        raise PressureRefused(
            f"The pressure at {point.hours:f} h has no temperature to correct it by."
        )
    kelvin = Fraction(point.celsius) + ZERO_CELSIUS
    if kelvin <= 0:
        raise PressureRefused(f"{point.celsius:f} °C is below absolute zero.")
    absolute = Fraction(point.pressure) + Fraction(atmosphere)
    return absolute * (Fraction(reference_c) + ZERO_CELSIUS) / kelvin - Fraction(
        atmosphere
    )


def _at(log: Sequence[Point], hours: Decimal) -> Point:
    """The reading nearest to the stated hour; of two as near, the earlier."""
    near = [
        point
        for point in log
        if abs(Fraction(point.hours) - Fraction(hours)) <= HALF_AN_HOUR
    ]
    if not near:
        raise PressureRefused(
            f"There is no reading within half an hour of {hours:f} h: "
            "a reading stands only for its own hour."
        )
    return min(near, key=lambda point: (abs(point.hours - hours), point.hours))
