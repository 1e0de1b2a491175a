"""What every function of precision asks of the figures given to it."""

from decimal import Decimal
from fractions import Fraction

from specs.numbers import EXACT, Refused, to_decimal

UPPER, LOWER = "upper", "lower"
SIDES = (UPPER, LOWER)


class PrecisionRefused(Refused):
    """Figures from which no precision, bound or value can be computed."""


def above_zero(figure: Decimal, what: str) -> Fraction:
    """The exact figure. Raises PrecisionRefused unless it is finite and above zero."""
    if not figure.is_finite() or figure <= 0:
        raise PrecisionRefused(f"A {what} of {figure} is none: state one above zero.")
    return Fraction(figure)


def whole(count: Decimal | int, what: str) -> int:
    """The count as a whole number. Raises PrecisionRefused unless it is 1 or more."""
    exact = Decimal(count)
    if not exact.is_finite() or exact != int(exact) or exact < 1:
        raise PrecisionRefused(
            f"{count} cannot be the number of {what}: state a whole number above zero."
        )
    return int(exact)


def check_side(side: str) -> None:
    """Raise PrecisionRefused unless it is upper or lower."""
    if side not in SIDES:
        raise PrecisionRefused(f"“{side}” is no side of a limit: name upper or lower.")


def root(squared: Fraction) -> Decimal:
    """The square root of an exact number, to 28 digits."""
    return to_decimal(squared).sqrt(EXACT)
