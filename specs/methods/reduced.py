"""Reduced cones (ASTM D1403, IP 310, ISO 2137): the way to the full-scale cone.

A mean on the half or the quarter cone is converted before anything else and never
reported itself. The equations are quoted from memory; they agree with the published
readings of 97 (half) and 47 (quarter) above which one drop a cup is taken, which is 200
on the full scale. The standard limits the reduced cones to 175 to 385 full scale.

A house limit of the spread belongs to the full-scale cone: one unit of the quarter cone is
3.75 there, so that the same number would mean something else. A reduced cone has a limit
only where the laboratory states one, in units of the cone that is read.
"""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import mean
from specs.methods.outcome import Bar
from specs.numbers import shortened, to_decimal

FULL = "full"
# scale -> (factor, constant) of the equation to the full-scale cone
SCALES = {FULL: ("1", "0"), "half": ("2", "5"), "quarter": ("3.75", "24")}
LOWEST, HIGHEST = Decimal(175), Decimal(385)


def converted(average: Fraction, scale: str) -> Fraction:
    """A mean on the named cone as the full-scale cone would give it, in 0.1 mm."""
    factor, constant = (Fraction(number) for number in SCALES[scale])
    return average * factor + constant


def conversion(scale: str) -> str:
    """The conversion in words: "3.75 p + 24"."""
    factor, constant = SCALES[scale]
    return f"{factor} p + {constant}"


def scope_bars(value: Fraction, scale: str) -> tuple[Bar, ...]:
    """A bar where a reduced cone was used outside the range that it is for."""
    if scale == FULL or LOWEST <= value <= HIGHEST:
        return ()
    return (
        Bar(
            "scale",
            f"Stored, cannot count: {shortened(value)} on the full scale is outside "
            f"{LOWEST} to {HIGHEST}, the range that the {scale} cone is for.",
            "Take the full-scale cone.",
        ),
    )


def reduced_parts(readings: Sequence[Decimal], scale: str) -> dict[str, str]:
    """What was read, by names that no one takes for a result; nothing for the full cone."""
    if scale == FULL:
        return {}
    return {
        f"mean_on_{scale}_cone": f"{to_decimal(mean(readings)):f}",
        f"spread_on_{scale}_cone": f"{max(readings) - min(readings):f}",
        "conversion": conversion(scale),
    }
