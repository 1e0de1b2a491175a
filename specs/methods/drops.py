"""The dropping point from pairs of temperatures: block (ASTM D2265) and bath (ASTM D566, ISO 2176).

Block: observed + (block − observed) / 3. Bath: the mean of the two thermometers when
the first drop falls. Determinations stay unrounded; their mean is reported once to the
whole degree, half to even. Grease that does not drop is reported above the block.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import mean, round_to_step
from specs.numbers import Number, Refused, to_decimal

BLOCK, BATH = "D2265", "D566"


class DroppingPointRefused(Refused):
    """A pair of temperatures from which no dropping point follows."""


@dataclass(frozen=True)
class Pair:
    """Temperatures in °C when the drop fell; `observed` is None when none fell."""

    observed: Decimal | None
    block: Decimal


@dataclass(frozen=True)
class Drops:
    """Each determination unrounded (a censored number for no drop) and the result."""

    determinations: tuple[Number, ...]
    mean: Fraction | None
    reported: Number


def corrected(method: str, observed: Decimal, block: Decimal) -> Fraction:
    """One determination in °C, unrounded. Raises DroppingPointRefused."""
    if method == BLOCK:
        return Fraction(observed) + (Fraction(block) - Fraction(observed)) / 3
    if method == BATH:
        return (Fraction(observed) + Fraction(block)) / 2
    raise DroppingPointRefused(f"“{method}” is no method here: name {BLOCK} or {BATH}.")


def from_pairs(method: str, pairs: Sequence[Pair]) -> Drops:
    """The determinations of some pairs and their mean, reported to 1 °C.

    Without a drop a determination lies above its block and is never averaged: the
    result is then above the lowest such block. Raises DroppingPointRefused for no
    pair at all or an unknown method.
    """
    if not pairs:
        raise DroppingPointRefused("There is no pair of temperatures.")
    values = [
        None if pair.observed is None else corrected(method, pair.observed, pair.block)
        for pair in pairs
    ]
    determinations = tuple(
        Number.of(pair.block, ">") if value is None else Number.of(to_decimal(value))
        for pair, value in zip(pairs, values, strict=True)
    )
    if blocks := [number.value for number in determinations if number.is_censored]:
        return Drops(determinations, None, Number.of(min(blocks), ">"))
    average = mean([value for value in values if value is not None])
    return Drops(determinations, average, Number.of(round_to_step(average, "1")))


def check_order(pairs: Sequence[Pair], heater: str = "block") -> None:
    """Raise DroppingPointRefused for a heater colder than the cup that it heats."""
    for pair in pairs:
        if pair.observed is not None and pair.block < pair.observed:
            raise DroppingPointRefused(
                f"The {heater} at {pair.block:f} °C is colder than the cup at "
                f"{pair.observed:f} °C: one of the two is mistyped or mixed up."
            )
