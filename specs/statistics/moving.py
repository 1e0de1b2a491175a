"""Whether results move with time: the test of Mann and Kendall, and the middle of all slopes."""

from bisect import bisect_left, bisect_right, insort
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import groupby
from math import factorial
from statistics import NormalDist
from typing import Any

from specs.judging.checking import root
from specs.judging.quantiles import TEN_DIGITS, normal
from specs.numbers import to_decimal
from specs.statistics.intervals import CONFIDENCE, Interval, interval_of, upper_tail
from specs.statistics.line import FEWEST, Place
from specs.statistics.summary import StatisticsRefused

MOST_EXACT = 10  # results without ties, whose orders are all counted
MOST_PAIRED = 2000  # results whose slopes, two by two, are all looked at
_NORMAL = NormalDist()
Pairs = list[tuple[Fraction, Fraction]]  # place and value, by place


@dataclass(frozen=True)
class Moving:
    """What the order of the results says of a rise or a fall; nothing is judged by it."""

    count: int
    S: int  # pairs that rise less pairs that fall
    variance: Fraction  # of S where nothing moves
    z: Decimal
    p: Decimal  # two-sided: how often chance alone gives as much or more
    is_exact: bool  # p counted out, not taken from the normal distribution
    slope: Interval | None  # the middle of all slopes, per unit of x; none of too many


def moving_of(
    places: Sequence[Place],
    values: Sequence[Decimal],
    confidence: Decimal = CONFIDENCE,
) -> Moving:
    """The test of Mann and Kendall, and the slope of Theil and Sen.

    S = Σ sign(xⱼ − xᵢ) over all pairs, the later less the earlier; pairs of one place and
    pairs of equal values count nothing. Var S as Kendall gives it with ties on both
    sides; Z = (S ∓ 1)/√Var. p is counted out over all orders for at most ten results
    without ties. The slope is the median of all slopes two by two, its interval the
    slopes at the ranks (N ∓ z √Var)/2 (Gilbert, Statistical Methods for Environmental
    Pollution Monitoring, 1987, 16.4 and 17.3.2). Results are taken as independent.
    Raises StatisticsRefused for fewer than three results, unlike counts, or results of
    one place; IntervalRefused for a confidence that is none.
    """
    if len(places) != len(values):
        raise StatisticsRefused("Each result needs its one place.")
    pairs = sorted(
        (Fraction(x), Fraction(y)) for x, y in zip(places, values, strict=True)
    )
    if len(pairs) < FEWEST or pairs[0][0] == pairs[-1][0]:
        raise StatisticsRefused(
            f"Whether results move takes {FEWEST} or more, and not all at one place."
        )
    tail, s = upper_tail(confidence), _s(pairs)
    ties = _ties(x for x, _ in pairs), _ties(y for _, y in pairs)
    variance = _variance(len(pairs), *ties)
    is_exact = len(pairs) <= MOST_EXACT and not any(ties)
    return Moving(
        count=len(pairs),
        S=s,
        variance=variance,
        z=_z(s, variance),
        p=_counted(len(pairs), s) if is_exact else _from_normal(_z(s, variance)),
        is_exact=is_exact,
        slope=_slope(pairs, normal(tail) * root(variance), confidence)
        if len(pairs) <= MOST_PAIRED
        else None,
    )


def _s(pairs: Pairs) -> int:
    """Pairs that rise less pairs that fall, place by place."""
    before: list[Fraction] = []
    total = 0
    for _, group in groupby(pairs, key=lambda it: it[0]):
        values = [y for _, y in group]
        total += sum(
            bisect_left(before, y) - (len(before) - bisect_right(before, y))
            for y in values
        )
        for y in values:
            insort(before, y)
    return total


def _ties(numbers: Iterable[Fraction]) -> list[int]:
    return [count for count in Counter(numbers).values() if count > 1]


def _variance(count: int, places: list[int], values: list[int]) -> Fraction:
    def whole(sizes: list[int]) -> int:
        return sum(t * (t - 1) * (2 * t + 5) for t in sizes)

    def twos(sizes: list[int]) -> int:
        return sum(t * (t - 1) for t in sizes)

    def threes(sizes: list[int]) -> int:
        return sum(t * (t - 1) * (t - 2) for t in sizes)

    n = count
    return (
        Fraction(whole([n]) - whole(places) - whole(values), 18)
        + Fraction(threes(places) * threes(values), 9 * n * (n - 1) * (n - 2))
        + Fraction(twos(places) * twos(values), 2 * n * (n - 1))
    )


def _z(s: int, variance: Fraction) -> Decimal:
    if not s or not variance:
        return Decimal(0)
    return to_decimal(Fraction(s - (1 if s > 0 else -1)) / Fraction(root(variance)))


def _from_normal(z: Decimal) -> Decimal:
    return TEN_DIGITS.create_decimal_from_float(2 * _NORMAL.cdf(-abs(float(z))))


def _counted(count: int, s: int) -> Decimal:
    """The share of all orders whose S is as far from nought: by their inversions."""
    orders = [1]
    for size in range(2, count + 1):
        longer = [0] * (len(orders) + size - 1)
        for place, number in enumerate(orders):
            for more in range(size):
                longer[place + more] += number
        orders = longer
    most = len(orders) - 1  # inversions of the order that only falls
    far = sum(it for place, it in enumerate(orders) if abs(most - 2 * place) >= abs(s))
    return to_decimal(Fraction(far, factorial(count)))


def _slope(pairs: Pairs, reach: Decimal, confidence: Decimal) -> Interval:
    """The median of all slopes and the slopes at the two ranks.

    They are put in order as floats; those that count are then worked out exactly.
    """
    import numpy as np  # late: it takes a tenth of a second

    x = np.array([float(it) for it, _ in pairs])
    y = np.array([float(it) for _, it in pairs])
    first, second = np.triu_indices(len(pairs), k=1)
    unlike = x[first] != x[second]
    first, second = first[unlike], second[unlike]
    order = np.argsort((y[second] - y[first]) / (x[second] - x[first]), kind="stable")

    def at(rank: int) -> Fraction:
        place: Any = order[min(max(rank, 0), len(order) - 1)]
        (x1, y1), (x2, y2) = pairs[int(first[place])], pairs[int(second[place])]
        return (y2 - y1) / (x2 - x1)

    count = len(order)
    middle = (at((count - 1) // 2) + at(count // 2)) / 2
    low = at(round((count - Fraction(reach)) / 2) - 1)
    high = at(round((count + Fraction(reach)) / 2))
    return interval_of(middle, low, high, confidence)
