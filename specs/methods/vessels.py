"""How the oxygen vessels of ASTM D942 started: which starting pressure is doubted, and which cannot be one at all."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.methods.outcome import Bar
from specs.methods.pressure import REPORTED_TO, Fall, Point
from specs.numbers import shortened
from specs.units import convert

START_KPA = (Decimal("743.9"), Decimal("772.3"))  # 758 ± 14 kPa or 110 ± 2 psi, gauge
# Beyond these no vessel was started by D942, whatever its gauge: most likely the unit is
# wrong. The method gives 758 ± 14 kPa; the wide window around it is a house figure.
NO_START_KPA = (Decimal(690), Decimal(830))


@dataclass(frozen=True)
class Vessel:
    """What one vessel has given so far."""

    place: int
    unit: str
    points: tuple[Point, ...]
    fall: Fall | None


def _start(vessel: Vessel) -> tuple[Decimal, Fraction] | None:
    """The maximum as read and in kPa; None while it or its unit is missing."""
    if not vessel.points or vessel.points[0].hours != 0 or not vessel.unit:
        return None
    maximum = vessel.points[0].pressure
    return maximum, Fraction(convert(maximum, vessel.unit, "kPa"))


def _is_within(value: Fraction, bounds: tuple[Decimal, Decimal]) -> bool:
    return bounds[0] <= value <= bounds[1]


def start_bars(vessels: Sequence[Vessel]) -> tuple[Bar, ...]:
    """A bar for each maximum that is no start of this test in the unit of its gauge."""
    bars = []
    for vessel in vessels:
        start = _start(vessel)
        if start is None or _is_within(start[1], NO_START_KPA):
            continue
        others = " or ".join(unit for unit in REPORTED_TO if unit != vessel.unit)
        bars.append(
            Bar(
                "start",
                f"Stored, cannot count: {shortened(start[1])} kPa is no start pressure "
                "of this test (758 ± 14 kPa at the start); is the gauge in "
                f"{others}?",
                f"Compare with the gauge of vessel {vessel.place} and correct the unit "
                "or the maximum.",
            )
        )
    return tuple(bars)


def start_doubts(vessels: Sequence[Vessel]) -> tuple[str, ...]:
    """Questions on a start outside D942's and on a maximum that is none."""
    doubts = []
    for vessel in vessels:
        start = _start(vessel)
        if start is None:
            continue
        maximum, kpa = start
        if _is_within(kpa, NO_START_KPA) and not _is_within(kpa, START_KPA):
            doubts.append(
                f"Vessel {vessel.place} started at {maximum:f} {vessel.unit}, the method "
                "asks for 758 ± 14 kPa (110 ± 2 psi): check the number and the unit."
            )
        if vessel.fall is not None and vessel.fall.start > maximum:
            doubts.append(
                f"A later pressure of vessel {vessel.place} is above its maximum: "
                f"the fall is counted from {vessel.fall.start:f} {vessel.unit}."
            )
    return tuple(doubts)
