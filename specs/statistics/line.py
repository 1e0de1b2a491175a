"""Results over time: the straight line through them by least squares, with its intervals."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import lcm

from specs.judging.checking import root
from specs.numbers import to_decimal
from specs.statistics.intervals import CONFIDENCE, Interval, about, t_of, upper_tail
from specs.statistics.summary import StatisticsRefused

FEWEST = 3
Place = Decimal | Fraction | int  # on the axis that runs from left to right


@dataclass(frozen=True)
class Line:
    """y = intercept + slope x by least squares, x as given (days, mostly), y in the results' unit."""

    count: int
    intercept: Decimal
    slope: Interval  # per unit of x
    s: Decimal  # of the results about the line, of n − 2
    r_squared: Decimal | None  # none where all results are equal
    steepness: Fraction  # the slope, exactly
    mean_x: Fraction
    squares_x: Fraction  # Σ (x − x̄)²
    mean_y: Fraction

    def at(self, place: Place, confidence: Decimal = CONFIDENCE) -> Interval:
        """The mean of results at a place: ŷ ± t s √(1/n + (x − x̄)²/Sxx)."""
        return self._at(place, confidence, Fraction(1, self.count))

    def one_more_at(self, place: Place, confidence: Decimal = CONFIDENCE) -> Interval:
        """One new result at a place: the same with 1 added under the root."""
        return self._at(place, confidence, Fraction(1, self.count) + 1)

    def _at(self, place: Place, confidence: Decimal, share: Fraction) -> Interval:
        away = Fraction(place) - self.mean_x
        reach = root(share + away**2 / self.squares_x)
        t = t_of(upper_tail(confidence), Fraction(self.count - 2))
        value = self.mean_y + self.steepness * away
        return about(value, t * self.s * reach, confidence)


def line_of(
    places: Sequence[Place],
    values: Sequence[Decimal],
    confidence: Decimal = CONFIDENCE,
) -> Line:
    """The line of least squares: b = Sxy/Sxx, a = ȳ − b x̄, s² = Σ residuals²/(n − 2).

    The interval of the slope is b ± t s/√Sxx. Ordinary least squares as in the
    NIST/SEMATECH e-Handbook, 4.1.4.1; it supposes independent results about the line.
    Raises StatisticsRefused for fewer than three results, unlike counts, or results that
    all stand at one place; IntervalRefused for a confidence that is none.
    """
    if len(places) != len(values):
        raise StatisticsRefused("Each result needs its one place.")
    if len(values) < FEWEST:
        raise StatisticsRefused(
            f"A line with its interval needs {FEWEST} results or more."
        )
    sums = _sums(places, values)
    if not sums.xx:
        raise StatisticsRefused("All results stand at one place: no line goes through.")
    return _line(sums, confidence)


@dataclass(frozen=True)
class _Sums:
    """What least squares needs, exactly."""

    count: int
    mean_x: Fraction
    mean_y: Fraction
    xx: Fraction
    xy: Fraction
    yy: Fraction


def _sums(places: Sequence[Place], values: Sequence[Decimal]) -> _Sums:
    whole_x, under_x = _whole(places)
    whole_y, under_y = _whole(values)
    count, sum_x, sum_y = len(values), sum(whole_x), sum(whole_y)
    crossed = sum(x * y for x, y in zip(whole_x, whole_y, strict=True))
    return _Sums(
        count,
        Fraction(sum_x, count * under_x),
        Fraction(sum_y, count * under_y),
        Fraction(
            count * sum(x * x for x in whole_x) - sum_x**2, count * under_x * under_x
        ),
        Fraction(count * crossed - sum_x * sum_y, count * under_x * under_y),
        Fraction(
            count * sum(y * y for y in whole_y) - sum_y**2, count * under_y * under_y
        ),
    )


def _line(sums: _Sums, confidence: Decimal) -> Line:
    slope = sums.xy / sums.xx
    left = sums.yy - slope * sums.xy  # what the line leaves, exactly: never below zero
    s = root(left / (sums.count - 2))
    t = t_of(upper_tail(confidence), Fraction(sums.count - 2))
    half = Fraction(t * s) / Fraction(root(sums.xx))
    return Line(
        count=sums.count,
        intercept=to_decimal(sums.mean_y - slope * sums.mean_x),
        slope=about(slope, half, confidence),
        s=s,
        r_squared=to_decimal(1 - left / sums.yy) if sums.yy else None,
        steepness=slope,
        mean_x=sums.mean_x,
        squares_x=sums.xx,
        mean_y=sums.mean_y,
    )


def _whole(numbers: Sequence[Place]) -> tuple[list[int], int]:
    """The numbers as whole ones over one denominator, so that sums stay quick and exact."""
    exact = [Fraction(it) for it in numbers]
    under = lcm(*(it.denominator for it in exact))
    return [it.numerator * (under // it.denominator) for it in exact], under
