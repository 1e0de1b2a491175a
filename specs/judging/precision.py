"""Precision as figures state it, and what follows from r and R (ISO 4259, ISO 5725-6).

The figure itself is an expression in the level m of the results: "7", "0.42 √m", "23 %",
"2 + 5 %", "0.0812 (m + 0.15)".
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.checking import (
    UPPER,
    PrecisionRefused,
    above_zero,
    check_side,
    root,
    whole,
)
from specs.judging.constants import EXACT, PROBABILITY, constants_of
from specs.numbers import Refused, read, to_decimal

RECIPIENT, SUPPLIER = "recipient", "supplier"
PARTIES = (RECIPIENT, SUPPLIER)

_LONGEST = 60
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_TIMES = r" *[·×*]? *"
_TERM = re.compile(
    rf" *(?:(?P<percent>{_NUMBER}) *%"
    rf"|(?P<root>{_NUMBER}){_TIMES}(?:√ *m|√ *\( *m *\)|sqrt *\( *m *\)|m\^0[.,]5)"
    rf"|(?P<share>{_NUMBER}){_TIMES}m"
    rf"|(?P<constant>{_NUMBER})) *"
)
_PRODUCT = re.compile(
    rf" *(?P<share>{_NUMBER}){_TIMES}\( *m *\+ *(?P<shift>{_NUMBER}) *\) *"
)


@dataclass(frozen=True)
class Expression:
    """constant + share m + root √m, in the unit of the results, m their level."""

    text: str
    constant: Fraction
    share: Fraction
    root: Fraction = Fraction(0)

    @property
    def needs_level(self) -> bool:
        """Whether it differs from level to level."""
        return bool(self.share or self.root)

    def at(self, level: Decimal | Fraction) -> Decimal:
        """The figure at a level, to 28 digits.

        Raises PrecisionRefused where it would not be above zero, or would be taken of
        a level below zero: there is then no precision, not one of zero.
        """
        exact = Fraction(level)
        if self.needs_level and exact < 0:
            raise PrecisionRefused(
                f"“{self.text}” states no precision at the level "
                f"{to_decimal(exact):f}, which is below zero."
            )
        found = self.constant + self.share * exact
        if self.root:
            found += self.root * Fraction(root(exact))
        if found <= 0:
            raise PrecisionRefused(
                f"“{self.text}” states no precision at the level {to_decimal(exact):f}."
            )
        return to_decimal(found)


@dataclass(frozen=True)
class MeanReproducibility:
    """The reproducibility of averages, and the half width about the mean of all."""

    reproducibility: Decimal
    half_width: Decimal


def read_expression(text: str) -> Expression:
    """The expression that a figure's text states, m being the level of the results.

    A sum of terms, each a number, a percentage of m, a number times m or times √m; or
    a number times (m + number). Point and comma are both decimal marks. Raises
    PrecisionRefused for anything else, for a negative number and for zero.
    """
    if len(text) > _LONGEST:
        raise PrecisionRefused(
            f"“{text[:_LONGEST]}…” is longer than {_LONGEST} characters: write the "
            "precision alone."
        )
    expression = _product(text) or _sum(text)
    if not (expression.constant or expression.needs_level):
        raise PrecisionRefused(
            f"“{text.strip()}” states a precision of zero, which no method has: leave "
            "it out when the method states none."
        )
    return expression


def single_result_bound(
    limit: Decimal,
    side: str,
    R: Decimal,
    party: str,
    *,
    confidence: Decimal = PROBABILITY,
    constants: str = EXACT,
) -> Decimal:
    """How far a single result may lie from a limit before it is held against it.

    The recipient may call a product off-specification with this one-sided confidence
    only beyond the limit by z R/(1.96 √2) (0.59 R at 95 %); the supplier may call it
    on-specification only inside the limit by as much. ISO 4259. Raises
    PrecisionRefused for an unknown side or party, an R that is not above zero and a
    confidence below 0.5 or not below 1.
    """
    check_side(side)
    if party not in PARTIES:
        raise PrecisionRefused(
            f"“{party}” is no party: name {RECIPIENT} or {SUPPLIER}."
        )
    if not confidence.is_finite() or not Decimal("0.5") <= confidence < 1:
        raise PrecisionRefused(
            f"A confidence of {confidence} decides nothing: state a share from 0.5 to "
            "below 1, such as 0.95."
        )
    share = Fraction(constants_of(constants).one_sided_of_R(confidence))
    margin = share * above_zero(R, "reproducibility")
    goes_up = (side == UPPER) == (party == RECIPIENT)
    return to_decimal(Fraction(limit) + (margin if goes_up else -margin))


def mean_reproducibility(
    R: Decimal, r: Decimal, results_per_laboratory: Sequence[Decimal | int]
) -> MeanReproducibility:
    """The reproducibility of averages of k₁, k₂ … results in N laboratories.

    R_N = √(R² − r² (1 − (1/N) Σ 1/kᵢ)): how far the averages of two laboratories may
    differ. The mean of all lies within R_N/√(2N) of the true value, or of a reference
    value, in 95 of 100 cases. ISO 4259; ISO 5725-6, critical differences. Raises
    PrecisionRefused without a laboratory, for a count that is no whole number above
    zero, and for an r above R.
    """
    counts = [
        whole(count, "a laboratory's results") for count in results_per_laboratory
    ]
    if not counts:
        raise PrecisionRefused(
            "There is no laboratory: state how many results each has."
        )
    return _averaged(R, r, counts)


def critical_difference(r: Decimal, first: int, second: int) -> Decimal:
    """How far two averages of one laboratory may differ: r √(1/(2n₁) + 1/(2n₂)).

    ISO 5725-6; for averages of two laboratories, and of one against a reference, see
    `mean_reproducibility`. Raises PrecisionRefused for counts below 1 and an r not
    above zero.
    """
    counts = whole(first, "an average"), whole(second, "an average")
    halves = sum((Fraction(1, 2 * count) for count in counts), Fraction(0))
    return root(above_zero(r, "repeatability") ** 2 * halves)


def _averaged(R: Decimal, r: Decimal, counts: Sequence[int]) -> MeanReproducibility:
    between = above_zero(R, "reproducibility")
    within = above_zero(r, "repeatability")
    if within > between:
        raise PrecisionRefused(
            f"A repeatability of {r} above the reproducibility of {R} cannot be: "
            "check both figures."
        )
    share = sum((Fraction(1, count) for count in counts), Fraction(0)) / len(counts)
    squared = between**2 - within**2 * (1 - share)
    return MeanReproducibility(root(squared), root(squared / (2 * len(counts))))


def _product(text: str) -> Expression | None:
    found = _PRODUCT.fullmatch(text)
    if found is None:
        return None
    share = _number(found["share"])
    return Expression(
        text.strip(), constant=share * _number(found["shift"]), share=share
    )


def _sum(text: str) -> Expression:
    parts = {"constant": Fraction(0), "share": Fraction(0), "root": Fraction(0)}
    for term in text.split("+"):
        found = _TERM.fullmatch(term)
        if found is None or found.lastgroup is None:
            raise PrecisionRefused(
                f"“{text.strip()}” states no precision: write 7, 23 %, 2 + 5 %, "
                "0.42 √m or 0.08 (m + 0.15), m being the level of the results."
            )
        number = _number(found[found.lastgroup])
        if found.lastgroup == "percent":
            parts["share"] += number / 100
        else:
            parts[found.lastgroup] += number
    return Expression(text.strip(), **parts)


def _number(text: str) -> Fraction:
    try:
        return read(text).exact
    except Refused as refusal:
        raise PrecisionRefused(refusal.sentence) from None
