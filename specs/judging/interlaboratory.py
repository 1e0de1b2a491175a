"""Repeatability and reproducibility from a trial between laboratories (ISO 5725-2)."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.checking import PrecisionRefused, root
from specs.judging.constants import EXACT, constants_of
from specs.judging.rounding import mean
from specs.numbers import to_decimal


@dataclass(frozen=True)
class Trial:
    """The precision found at one level, in the unit of the results.

    `s_L` is the deviation between laboratories. Where its estimated variance is
    negative it is set to zero, and `is_cut` says so.
    """

    mean: Fraction
    s_r: Decimal
    s_L: Decimal
    s_R: Decimal
    r: Decimal
    R: Decimal
    is_cut: bool


def variance(results: Sequence[Decimal | Fraction]) -> Fraction:
    """Σ(x − mean)²/(n − 1), exact. Raises PrecisionRefused for fewer than two results."""
    if len(results) < 2:
        raise PrecisionRefused(
            f"{len(results)} results have no variance: two or more have one."
        )
    return _squares(results) / (len(results) - 1)


def interlaboratory(
    laboratories: Sequence[Sequence[Decimal]], constants: str = EXACT
) -> Trial:
    """Mean, deviations and limits of one level; the laboratories may differ in number.

    s_r² = Σ(nᵢ−1)sᵢ² / Σ(nᵢ−1); s_d² = Σ nᵢ(mᵢ−M)²/(p−1), n″ = (N − Σnᵢ²/N)/(p−1);
    s_L² = (s_d² − s_r²)/n″, not below zero; s_R² = s_L² + s_r²; r and R are 1.96 √2
    (or 2.8) of these. ISO 5725-2. For equal numbers this is the s_R of ASTM E691.
    Raises PrecisionRefused for fewer than two laboratories, one without results, and
    where no laboratory has more than one.
    """
    counts = [len(results) for results in laboratories]
    if len(counts) < 2:
        raise PrecisionRefused(
            f"{len(counts)} laboratory shows no reproducibility: two or more do."
        )
    if 0 in counts:
        raise PrecisionRefused(
            f"Laboratory {counts.index(0) + 1} has no results: leave it out."
        )
    total, others = sum(counts), len(counts) - 1
    if total == len(counts):
        raise PrecisionRefused(
            "Each laboratory has one result, which shows no repeatability: two or more "
            "are needed in one of them."
        )
    within = sum(map(_squares, laboratories)) / Fraction(total - len(counts))
    means = [mean(results) for results in laboratories]
    general = mean([Fraction(x) for results in laboratories for x in results])
    between = sum(
        count * (each - general) ** 2 for count, each in zip(counts, means, strict=True)
    ) / Fraction(others)
    number = (total - Fraction(sum(n**2 for n in counts), total)) / others
    estimate = (between - within) / number
    return _trial(general, within, estimate, constants)


def _trial(
    general: Fraction, within: Fraction, estimate: Fraction, constants: str
) -> Trial:
    laboratory = max(estimate, Fraction(0))
    limit = Fraction(constants_of(constants).difference_95)
    s_r, s_R = root(within), root(within + laboratory)
    return Trial(
        mean=general,
        s_r=s_r,
        s_L=root(laboratory),
        s_R=s_R,
        r=to_decimal(limit * Fraction(s_r)),
        R=to_decimal(limit * Fraction(s_R)),
        is_cut=estimate < 0,
    )


def _squares(results: Sequence[Decimal | Fraction]) -> Fraction:
    centre = mean(results)
    return sum(((Fraction(x) - centre) ** 2 for x in results), Fraction(0))
