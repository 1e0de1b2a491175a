"""How long the grease worker needs for its double strokes (ASTM D217: 60 ± 10 a minute)."""

from datetime import datetime, timedelta
from decimal import Decimal
from fractions import Fraction

from specs.numbers import Refused

SLOWEST = Decimal(50)
NOMINAL = Decimal(60)
FASTEST = Decimal(70)


class StrokesRefused(Refused):
    """A number of strokes or a rate that is not above zero."""


def strokes_seconds(strokes: Decimal | int, per_minute: Decimal | int) -> Fraction:
    """The exact seconds that double strokes last at a rate per minute.

    Raises StrokesRefused when either is not above zero.
    """
    if strokes <= 0 or per_minute <= 0:
        raise StrokesRefused("Strokes and strokes per minute are both above zero.")
    return Fraction(strokes) * 60 / Fraction(per_minute)


def nominal_end(
    started_at: datetime, strokes: Decimal | int, per_minute: Decimal | int = NOMINAL
) -> datetime:
    """When the strokes end at the stated rate, rounded up to the microsecond."""
    span = strokes_seconds(strokes, per_minute)
    return started_at + timedelta(microseconds=-(-span * 1_000_000 // 1))


def fastest_end(started_at: datetime, strokes: Decimal | int) -> datetime:
    """Before this the strokes cannot have ended: 70 a minute is the most allowed."""
    return nominal_end(started_at, strokes, FASTEST)
