"""Rounding once, from the unrounded value, to a step (ASTM E29, ISO 80000-1 Annex B)."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from specs.numbers import Refused

TIES = ("even", "up")


class RoundingRefused(Refused):
    """The step or the rule for a tie makes no sense."""


def round_to_step(
    value: Decimal | Fraction | int, step: Decimal | str, tie: str = "even"
) -> Decimal:
    """The multiple of `step` nearest to `value`, with the decimals of the step.

    A tie goes to the even multiple (ISO 80000-1 Annex B rule A, ASTM E29) or, with
    "up", away from zero (rule B). The arithmetic is exact whatever the context.
    Raises RoundingRefused for a step that is not above zero or an unknown tie.
    """
    step = Decimal(step)
    if not step.is_finite() or step <= 0:
        raise RoundingRefused(f"A step of {step} rounds nothing: name one above zero.")
    check_tie(tie)
    if isinstance(value, Decimal) and not value.is_finite():
        raise RoundingRefused("Only a finite number can be rounded.")
    return _multiple(_nearest(value, step, tie), step)


def check_tie(tie: str) -> None:
    """Raise RoundingRefused for a rule for ties that is not kept."""
    if tie not in TIES:
        raise RoundingRefused(f"“{tie}” is no rule for a tie: name even or up.")


def step_of(text: str | Decimal) -> Decimal:
    """One unit of the last digit written: "0.50" gives 0.01, "36000" gives 1."""
    return Decimal((0, (1,), min(_exponent(Decimal(text)), 0)))


def mean(values: Sequence[Decimal | Fraction]) -> Fraction:
    """The arithmetic mean as an exact fraction. Raises RoundingRefused when empty."""
    if not values:
        raise RoundingRefused("There is no mean of no values.")
    return sum((Fraction(value) for value in values), Fraction(0)) / len(values)


def _nearest(value: Decimal | Fraction | int, step: Decimal, tie: str) -> int:
    """How many whole steps lie nearest to the value, in whole numbers throughout."""
    top, bottom = value.as_integer_ratio()
    step_top, step_bottom = step.as_integer_ratio()
    one_step = bottom * step_top
    count, rest = divmod(abs(top) * step_bottom, one_step)
    is_odd = count % 2 == 1
    if 2 * rest > one_step or (2 * rest == one_step and (tie == "up" or is_odd)):
        count += 1
    return -count if top < 0 else count


def _exponent(number: Decimal) -> int:
    exponent = number.as_tuple().exponent
    if not isinstance(exponent, int):
        raise RoundingRefused(f"“{number}” has no last digit.")
    return exponent


def _multiple(count: int, step: Decimal) -> Decimal:
    """`count` × `step`, built digit by digit so that no context can round it."""
    exponent = _exponent(step)
    size = abs(count) * int("".join(map(str, step.as_tuple().digits)))
    size *= 10 ** max(exponent, 0)
    sign = 1 if count < 0 else 0
    return Decimal((sign, tuple(map(int, str(size))), min(exponent, 0)))
