"""Outliers among results and among variances: Grubbs and Cochran (ISO 5725-2, ASTM E178).

A test names what is suspect. It deletes nothing: the cause is looked for first.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.checking import root
from specs.judging.interlaboratory import variance
from specs.judging.quantiles import TEN_DIGITS, fisher_f, student_t
from specs.judging.rounding import mean
from specs.numbers import Refused, to_decimal

TAILS = ("upper", "lower")
FEWEST = 3  # of two values, each lies as far from the mean as the other


class OutliersRefused(Refused):
    """Numbers to which no test for outliers applies."""


@dataclass(frozen=True)
class Grubbs:
    """The statistic, its critical value, and the suspect; no suspect among equals."""

    statistic: Decimal
    critical: Decimal
    suspect: Decimal | None

    @property
    def is_outlying(self) -> bool:
        """Whether the statistic exceeds the critical value."""
        return self.statistic > self.critical


def grubbs(
    values: Sequence[Decimal], alpha: Decimal, sides: int, *, tail: str = "upper"
) -> Grubbs:
    """One outlier among values taken as normal: G = |suspect − mean| / s.

    Two-sided, the suspect is the value farthest from the mean, the largest when both
    ends are as far. One-sided, which end is suspected was named before: the largest
    value, or the smallest with the tail "lower". To be used once on a set. Raises
    OutliersRefused for fewer than three values, alpha not between 0 and 1, and other
    sides than 1 and 2.
    """
    _check_tail(tail)
    critical = grubbs_critical(len(values), alpha, sides)
    centre, spread = mean(values), root(variance(values))
    suspect = _suspect(values, centre, sides, tail)
    if spread == 0:
        return Grubbs(Decimal(0), critical, None)
    distance = abs(Fraction(suspect) - centre) / Fraction(spread)
    return Grubbs(_cut(distance), critical, suspect)


def grubbs_critical(count: int, alpha: Decimal, sides: int) -> Decimal:
    """(n−1)/√n √(t²/(n−2+t²)), t at 1 − alpha/(sides n) with n − 2 degrees of freedom.

    The columns of ISO 5725-2 are two-sided, those of ASTM E178 one-sided.
    """
    if count < FEWEST:
        raise OutliersRefused(
            f"Grubbs's test cannot judge {count} values: it needs three or more."
        )
    if sides not in (1, 2):
        raise OutliersRefused(f"A test cannot have {sides} sides: state 1 or 2.")
    t = student_t(_upper_share(alpha, sides * count), count - 2)
    squared = Fraction(t) ** 2
    share = squared / (count - 2 + squared)
    return _cut(Fraction(root(Fraction((count - 1) ** 2, count) * share)))


def cochran_statistic(laboratories: Sequence[Sequence[Decimal]]) -> Decimal:
    """The share of the greatest variance in the sum of all; 0 when all are zero.

    Meant for equal numbers of results. Raises OutliersRefused for fewer than two
    laboratories, PrecisionRefused for a laboratory with fewer than two results.
    """
    if len(laboratories) < 2:
        raise OutliersRefused(
            f"Cochran's test compares variances: {len(laboratories)} is too few."
        )
    variances = [variance(results) for results in laboratories]
    total = sum(variances, Fraction(0))
    return _cut(max(variances) / total) if total else Decimal(0)


def cochran_critical(laboratories: int, results: int, alpha: Decimal) -> Decimal:
    """1/(1 + (p−1)/F) for p laboratories with n results each.

    F at 1 − alpha/p with n − 1 and (p − 1)(n − 1) degrees of freedom. Raises
    OutliersRefused for fewer than two laboratories or results.
    """
    for count, what in ((laboratories, "laboratories"), (results, "results each")):
        if count < 2:
            raise OutliersRefused(
                f"Cochran's test cannot compare {count} {what}: it needs two or more."
            )
    others, freedom = laboratories - 1, results - 1
    f = fisher_f(_upper_share(alpha, laboratories), freedom, others * freedom)
    return _cut(1 / (1 + others / Fraction(f)))


def _suspect(
    values: Sequence[Decimal], centre: Fraction, sides: int, tail: str
) -> Decimal:
    low, high = min(values), max(values)
    if sides == 1:
        return low if tail == "lower" else high
    return low if centre - Fraction(low) > Fraction(high) - centre else high


def _check_tail(tail: str) -> None:
    if tail not in TAILS:
        raise OutliersRefused(f"“{tail}” is no tail: name upper or lower.")


def _upper_share(alpha: Decimal, parts: int) -> Decimal:
    """1 − alpha/parts."""
    if not alpha.is_finite() or not 0 < alpha < 1:
        raise OutliersRefused(
            f"A significance of {alpha} decides nothing: state a share between 0 and "
            "1, such as 0.05."
        )
    return to_decimal(1 - Fraction(alpha) / parts)


def _cut(value: Fraction) -> Decimal:
    """The number to the ten digits of the quantiles."""
    return TEN_DIGITS.divide(Decimal(value.numerator), Decimal(value.denominator))
