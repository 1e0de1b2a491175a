"""Between which numbers a result is believed without asking."""

from collections.abc import Callable
from decimal import Decimal

from specs.methods.penetration import PLAUSIBLE
from specs.tables.known import Measured

Range = tuple[Decimal | None, Decimal | None]

# No grease is tested outside these temperatures: common practice, no source.
COLDEST, HOTTEST = Decimal(-80), Decimal(350)


def plausible(measured: Measured) -> Range:
    """The range that the characteristic states, else that of the cone or thermometer."""
    low, high = measured.plausible_from, measured.plausible_to
    if low is not None or high is not None or measured.is_signed:
        return low, high
    if measured.unit == "0.1 mm":
        return _of_cone(measured.conditions)
    return (COLDEST, HOTTEST) if measured.unit == "°C" else (None, None)


def is_within(measured: Measured) -> Callable[[Decimal], bool]:
    """A test whether a value lies in the plausible range, its ends included."""
    low, high = plausible(measured)

    def holds(value: Decimal) -> bool:
        return (low is None or value >= low) and (high is None or value <= high)

    return holds


def _of_cone(conditions: str) -> Range:
    scale = next((it for it in PLAUSIBLE if f"{it} cone" in conditions), "full")
    low, high = PLAUSIBLE[scale]
    return Decimal(low), Decimal(high)
