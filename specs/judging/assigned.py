"""The value on which two laboratories settle, and the bound it is held to (ASTM D3244)."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from specs.judging.checking import (
    UPPER,
    PrecisionRefused,
    above_zero,
    check_side,
    root,
    whole,
)
from specs.judging.constants import EXACT, constants_of
from specs.judging.quantiles import normal
from specs.judging.rounding import mean
from specs.numbers import to_decimal

Basis = Literal["first", "retest", "three", "closer pair"]


@dataclass(frozen=True)
class Assigned:
    """The assigned test value, exact, and the step at which it was found."""

    value: Fraction
    basis: Basis


def assigned_value(
    R: Decimal,
    first: Sequence[Decimal],
    retest: Sequence[Decimal] | None = None,
    referee: Decimal | None = None,
    constants: str = EXACT,
) -> Assigned:
    """The value assigned to a product from results of supplier and recipient.

    Two results within R: their mean. Else both test the retained sample again, and
    two retests within R give theirs. Else a referee's third, and three within 1.2 R
    give the mean of three. Else the mean of the closer pair; a tie between the pairs,
    which the standard leaves open, gives the mean of three. Raises PrecisionRefused
    for an R that is not above zero, unless there are two results each time, and where
    a retest or a referee is needed and missing.
    """
    limit = above_zero(R, "reproducibility")
    _check_pair(first, "first")
    if _span(first) <= limit:
        return Assigned(mean(first), "first")
    if retest is None:
        raise PrecisionRefused(
            f"{_both(first)} differ by more than R = {R}: both laboratories test the "
            "retained sample again; give the retests."
        )
    _check_pair(retest, "retest")
    if _span(retest) <= limit:
        return Assigned(mean(retest), "retest")
    if referee is None:
        raise PrecisionRefused(
            f"The retests {_both(retest)} differ by more than R = {R}: a referee "
            "laboratory tests the retained sample; give its result."
        )
    three_within = Fraction(constants_of(constants).retested_three_of_R) * limit
    return _of_three(sorted(map(Fraction, [*retest, referee])), three_within)


def acceptance_bound(
    limit: Decimal,
    side: str,
    R: Decimal,
    probability: Decimal,
    *,
    laboratories: Decimal | int = 2,
    constants: str = EXACT,
) -> Decimal:
    """The bound that an assigned value is held to: limit ± z R/(1.96 √2 √n).

    `probability` is the agreed one of accepting a product whose true value lies on the
    limit: 0.95 puts the bound outside the limit, 0.5 on it, 0.05 inside. Raises
    PrecisionRefused for an unknown side and an R or a number of laboratories that is
    not above zero, QuantileRefused for a probability not between 0 and 1.
    """
    check_side(side)
    count = whole(laboratories, "laboratories")
    sigma = above_zero(R, "reproducibility") / Fraction(
        constants_of(constants).difference_95
    )
    outwards = Fraction(normal(probability)) * sigma / Fraction(root(Fraction(count)))
    return to_decimal(Fraction(limit) + (outwards if side == UPPER else -outwards))


def _of_three(ordered: list[Fraction], three_within: Fraction) -> Assigned:
    low, middle, high = ordered
    lower_gap, upper_gap = middle - low, high - middle
    if high - low <= three_within or lower_gap == upper_gap:
        return Assigned(mean(ordered), "three")
    pair = min([low, middle], [middle, high], key=_span)
    return Assigned(mean(pair), "closer pair")


def _check_pair(results: Sequence[Decimal], which: str) -> None:
    if len(results) != 2:
        raise PrecisionRefused(
            f"There are {len(results)} {which} results: two are needed, one from each "
            "laboratory."
        )


def _span(results: Sequence[Decimal | Fraction]) -> Fraction:
    return abs(Fraction(results[0]) - Fraction(results[1]))


def _both(results: Sequence[Decimal]) -> str:
    return f"{results[0]} and {results[1]}"
