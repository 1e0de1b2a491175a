"""What a group of results says in a few figures; bounds are counted and never averaged."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from specs.judging.checking import root
from specs.numbers import Number, Refused, to_decimal
from specs.statistics.ranks import ordered

NOTHING = "There is no result: nothing can be summed up."
QUARTILES = (Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))


class StatisticsRefused(Refused):
    """Results of which nothing can be said, or not by this calculation."""


@dataclass(frozen=True)
class Summary:
    """A group of results in figures.

    The five in the middle are canonical texts: a number, a bound (">288", "≥300") where
    no more is known, a mark of a scale, or empty where nothing is determined.
    """

    count: int
    censored: int = 0  # how many of them are known as a bound only
    mean: Decimal | None = None  # none of bounds, none of marks
    s: Decimal | None = None  # of n − 1; none of fewer than two
    minimum: str = ""
    lower_quartile: str = ""
    median: str = ""
    upper_quartile: str = ""
    maximum: str = ""
    counts: tuple[tuple[str, int], ...] = ()  # of each mark, best first


def mean_of(values: Sequence[Decimal]) -> Fraction:
    """The arithmetic mean, exactly. Raises StatisticsRefused without a value."""
    if not values:
        raise StatisticsRefused("There is no result: one is needed for a mean.")
    return sum((Fraction(it) for it in values), Fraction(0)) / len(values)


def variance_of(values: Sequence[Decimal]) -> Fraction:
    """The sample variance Σ (x − x̄)²/(n − 1), exactly, in the square of their unit.

    Raises StatisticsRefused for fewer than two values.
    """
    if len(values) < 2:
        raise StatisticsRefused("One result has no spread: two are needed.")
    return _squares_of(values) / (len(values) - 1)


def _squares_of(values: Sequence[Decimal]) -> Fraction:
    """The sum of the squared distances from their mean, exactly."""
    whole, under = _on_one_denominator(values)
    total, count = sum(whole), len(whole)
    squares = count * sum(it * it for it in whole) - total * total
    return Fraction(squares, count * under * under)


def summary_of(values: Sequence[Number]) -> Summary:
    """Count, mean, s, and least, quartiles, median and greatest, in the results' unit.

    Quartiles lie at the place 1 + (n − 1) p among the ordered results, between two of
    them by their share (type 7 of Hyndman and Fan, The American Statistician 50, 1996).
    With bounds among the results there is no mean and no s, and of the other five those
    stand that the bounds leave determined. Raises StatisticsRefused without a result.
    """
    if not values:
        raise StatisticsRefused(NOTHING)
    censored = sum(it.is_censored for it in values)
    plain = [it.value for it in values] if not censored else []
    return _ranked(
        Summary(
            count=len(values),
            censored=censored,
            mean=to_decimal(mean_of(plain)) if plain else None,
            s=root(variance_of(plain)) if len(plain) > 1 else None,
        ),
        ordered(values).quantile,
    )


def summary_of_loads(values: Sequence[Number]) -> Summary:
    """The same of the steps of a ladder of loads, which are never averaged.

    Of two neighbours the lower load stands, so that each figure is a load of the ladder.
    Raises StatisticsRefused without a result.
    """
    if not values:
        raise StatisticsRefused(NOTHING)
    censored = sum(it.is_censored for it in values)
    return _ranked(Summary(len(values), censored), ordered(values).step)


def _ranked(found: Summary, of: Callable[[Fraction], str]) -> Summary:
    """The same with the five figures that stand at a rank."""
    low, middle, high = (of(share) for share in QUARTILES)
    return replace(
        found,
        minimum=of(Fraction(0)),
        lower_quartile=low,
        median=middle,
        upper_quartile=high,
        maximum=of(Fraction(1)),
    )


def summary_of_marks(marks: Sequence[str], scale: Sequence[str]) -> Summary:
    """How often each mark was given, and of a scale (best first) the middle ones.

    A median or quartile between two unlike marks is no mark: the worse one stands. Marks
    without an order (words, pass or fail) are counted only. Raises StatisticsRefused
    without a mark.
    """
    if not marks:
        raise StatisticsRefused(NOTHING)
    counted = Counter(marks)
    named = [it for it in scale if it in counted]
    others = sorted(it for it in counted if it not in scale)
    counts = tuple((it, counted[it]) for it in (*named, *others))
    if others or not named:
        return Summary(count=len(marks), counts=counts)
    line = [mark for mark, count in counts for _ in range(count)]
    low, middle, high = (line[-(-(len(line) - 1) * it // 1)] for it in QUARTILES)
    return Summary(
        count=len(marks),
        minimum=line[0],
        lower_quartile=low,
        median=middle,
        upper_quartile=high,
        maximum=line[-1],
        counts=counts,
    )


def _on_one_denominator(values: Sequence[Decimal]) -> tuple[list[int], int]:
    """Whole numbers over one power of ten: sums of many results stay quick and exact."""
    under = 10 ** max(0, *(-int(it.as_tuple().exponent) for it in values))
    return [int(Fraction(it) * under) for it in values], under
