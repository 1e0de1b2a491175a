"""A figure with the interval that it lies in, and the t that makes it."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from specs.judging.quantiles import TEN_DIGITS
from specs.numbers import Refused, to_decimal

CONFIDENCE = Decimal("0.95")


class IntervalRefused(Refused):
    """A confidence, or results, for which there is no interval."""


@dataclass(frozen=True)
class Interval:
    """A figure, and the two ends between which it lies with this two-sided confidence."""

    value: Decimal
    lower: Decimal
    upper: Decimal
    confidence: Decimal = CONFIDENCE

    def holds(self, value: Decimal | int) -> bool:
        """Whether the value lies between the ends or on one."""
        return self.lower <= value <= self.upper


def upper_tail(confidence: Decimal) -> Decimal:
    """The probability below the upper end of a two-sided interval: 0.975 for 0.95.

    Raises IntervalRefused unless the confidence lies between 0 and 1.
    """
    if not confidence.is_finite() or not 0 < confidence < 1:
        raise IntervalRefused(
            f"A confidence of {confidence} makes no interval: state a share between 0 "
            "and 1, such as 0.95."
        )
    return (1 + confidence) / 2


@cache
def t_of(probability: Decimal, freedom: Fraction) -> Decimal:
    """The quantile of Student's t for a freedom that need not be whole, to ten digits.

    From scipy, cut to ten digits. Raises IntervalRefused for a freedom that is not above
    zero.
    """
    from scipy.special import stdtrit  # late: it takes a third of a second

    if freedom <= 0:
        raise IntervalRefused("No degree of freedom is left: more results are needed.")
    found = float(stdtrit(float(freedom), float(probability)))
    return TEN_DIGITS.create_decimal_from_float(found)


def about(
    value: Fraction, half: Fraction | Decimal, confidence: Decimal = CONFIDENCE
) -> Interval:
    """The interval that reaches as far to either side of the value."""
    width = Fraction(half)
    return interval_of(value, value - width, value + width, confidence)


def interval_of(
    value: Fraction, lower: Fraction, upper: Fraction, confidence: Decimal
) -> Interval:
    """An interval of exact numbers, as decimals."""
    return Interval(to_decimal(value), to_decimal(lower), to_decimal(upper), confidence)
