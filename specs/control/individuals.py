"""The chart of individuals: mean, mean moving range and what they say of the spread."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from specs.control.reference import ControlRefused
from specs.judging.constants import PRINTED, SETS
from specs.judging.rounding import mean
from specs.numbers import to_decimal

R_PRIME = Fraction("2.77")  # of the standard deviation: site precision, ASTM D6299
FEWEST = 15  # readings before a spread is taken from them; ASTM D6299, from memory


@dataclass(frozen=True)
class Individuals:
    """What a run of single values says, in their unit."""

    count: int
    mean: Fraction
    range_mean: Fraction  # of the moving ranges of two

    @property
    def deviation(self) -> Fraction:
        """The standard deviation by the mean moving range: it is not widened by a slow drift."""
        return self.range_mean / Fraction(SETS[PRINTED].mean_range_2)

    @property
    def upper(self) -> Fraction:
        return self.mean + 3 * self.deviation

    @property
    def lower(self) -> Fraction:
        return self.mean - 3 * self.deviation

    @property
    def site_precision(self) -> Fraction:
        """R' = 2.77 s: how far two results of the site differ at most, 95 % of the time."""
        return R_PRIME * self.deviation


def individuals(values: Sequence[Decimal]) -> Individuals:
    """The chart's figures from values in order of time, all in one unit.

    Mean moving range over 1.128 (ASTM E2587; NIST handbook 6.3.2.2). Raises
    ControlRefused for fewer than two values.
    """
    if len(values) < 2:
        raise ControlRefused("A moving range needs two readings at least.")
    ranges = [abs(later - earlier) for earlier, later in pairwise(values)]
    return Individuals(len(values), mean(values), mean(ranges))


def own_deviation(values: Sequence[Decimal]) -> Decimal | None:
    """The standard deviation of a chart's own readings; None for fewer than 15 of them or where all are equal."""
    if len(values) < FEWEST:
        return None
    found = individuals(values).deviation
    return to_decimal(found) if found else None
