"""Two groups of results beside each other: how far apart they lie, and how unlike they spread."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.checking import root
from specs.judging.quantiles import fisher_f
from specs.numbers import Number, to_decimal
from specs.statistics.intervals import CONFIDENCE, Interval, about, t_of, upper_tail
from specs.statistics.summary import mean_of, summary_of, variance_of

TOO_FEW = "A comparison of means needs two results or more on either side."
BOUNDS = (
    "There are results known only as a bound, which are never averaged: means and "
    "spreads are not compared."
)
ALL_EQUAL = "All results of {which} are equal: nothing can be said of its spread."


@dataclass(frozen=True)
class Compared:
    """The second group against the first, in the unit of the results.

    What is not determined is none, and `why_not` says why.
    """

    means: Interval | None = None  # mean of the second less that of the first
    freedom: Decimal | None = None  # of that interval
    medians: Decimal | None = None  # median of the second less that of the first
    spreads: Interval | None = None  # s of the second over s of the first
    why_not: str = ""


def compared(
    first: Sequence[Number],
    second: Sequence[Number],
    confidence: Decimal = CONFIDENCE,
) -> Compared:
    """How far the second group lies from the first, and how much wider it spreads.

    Means: by Welch, with the freedom of Satterthwaite, so that the spreads need not be
    equal. Medians: their difference, where bounds among the results leave both
    determined. Spreads: s₂/s₁ with the interval of F, which supposes normal results.
    NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3 and 1.3.5.9. Nothing is
    judged. Raises StatisticsRefused where a group has no result, IntervalRefused for a
    confidence that is none.
    """
    tail = upper_tail(confidence)
    medians = _medians(first, second)
    why_not = _why_not(first, second)
    if why_not:
        return Compared(medians=medians, why_not=why_not)
    groups = [[it.value for it in group] for group in (first, second)]
    return _compared(groups[0], groups[1], tail, medians, confidence)


def _why_not(first: Sequence[Number], second: Sequence[Number]) -> str:
    if any(it.is_censored for it in (*first, *second)):
        return BOUNDS
    return TOO_FEW if min(len(first), len(second)) < 2 else ""


def _medians(first: Sequence[Number], second: Sequence[Number]) -> Decimal | None:
    found = [summary_of(group).median for group in (first, second)]
    if any(not it or it[0] in "<>≤≥" for it in found):
        return None
    return Decimal(found[1]) - Decimal(found[0])


def _compared(
    first: Sequence[Decimal],
    second: Sequence[Decimal],
    tail: Decimal,
    medians: Decimal | None,
    confidence: Decimal,
) -> Compared:
    spread = variance_of(first), variance_of(second)
    apart = mean_of(second) - mean_of(first)
    still = [
        which
        for which, it in zip(("the first", "the second"), spread, strict=True)
        if not it
    ]
    why_not = " ".join(ALL_EQUAL.format(which=which) for which in still)
    if len(still) == 2:
        alone = about(apart, Fraction(0), confidence)
        return Compared(alone, None, medians, None, why_not)
    freedom, half = _welch(spread, (len(first), len(second)), tail)
    return Compared(
        means=about(apart, half, confidence),
        freedom=to_decimal(freedom),
        medians=medians,
        spreads=None
        if still
        else _ratio(spread, (len(first), len(second)), tail, confidence),
        why_not=why_not,
    )


def _welch(
    spread: tuple[Fraction, Fraction], counts: tuple[int, int], tail: Decimal
) -> tuple[Fraction, Decimal]:
    """Degrees of freedom, and half the width of the interval of the difference."""
    shares = [it / count for it, count in zip(spread, counts, strict=True)]
    whole = sum(shares, Fraction(0))
    freedom = whole**2 / sum(
        (it**2 / (count - 1) for it, count in zip(shares, counts, strict=True)),
        Fraction(0),
    )
    return freedom, t_of(tail, freedom) * root(whole)


def _ratio(
    spread: tuple[Fraction, Fraction],
    counts: tuple[int, int],
    tail: Decimal,
    confidence: Decimal,
) -> Interval:
    ratio = spread[1] / spread[0]
    above, below = counts[1] - 1, counts[0] - 1
    return Interval(
        root(ratio),
        root(ratio / Fraction(fisher_f(tail, above, below))),
        root(ratio * Fraction(fisher_f(tail, below, above))),
        confidence,
    )
