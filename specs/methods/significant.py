"""Rounding once to a number of significant figures (ASTM E29, half to even)."""

from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import RoundingRefused, round_to_step
from specs.numbers import to_decimal


def round_to_figures(value: Decimal | Fraction | int, figures: int) -> Decimal:
    """The value with so many significant figures; a tie goes to the even figure.

    9.9996 to four figures is 10.00. Raises RoundingRefused for no figures.
    """
    if figures < 1:
        raise RoundingRefused(f"{figures} figures keep nothing: name at least one.")
    if value == 0:
        return Decimal(0)
    place = to_decimal(value).adjusted() - figures + 1
    rounded = _to_place(value, place)
    has_grown = rounded.adjusted() - figures + 1 > place
    return _to_place(rounded, place + 1) if has_grown else rounded


def _to_place(value: Decimal | Fraction | int, place: int) -> Decimal:
    return round_to_step(value, Decimal((0, (1,), place)))
