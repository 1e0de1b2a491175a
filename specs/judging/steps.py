"""The step to which a method reports: "0.1", "3 digits" (significant ones), or "0.01, 3 digits", the coarser of both.

Significant digits are counted as ASTM E29 counts them: from the first digit that is
not nought.
"""

import re
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.numbers import NumberRefused, Refused, read

_DIGITS = re.compile(r"(?P<count>[1-9]) digits?")


class StepRefused(Refused):
    """A text that names no step."""


def check_step(text: str) -> None:
    """Raise StepRefused unless the text names a step."""
    _read(text)


def step_at(value: Decimal | Fraction | int, text: str) -> Decimal:
    """The step at the level of a value. Raises StepRefused when the text names none.

    With significant digits the step is that of the rounded value: 9.996 to three
    digits is 10.0.
    """
    least, digits = _read(text)
    if digits is None:
        return least or Decimal(1)
    step = _coarser(least, _of_digits(value, digits))
    return _coarser(least, _of_digits(round_to_step(value, step), digits))


def rounded(value: Decimal | Fraction | int, text: str, tie: str = "even") -> Decimal:
    """The value rounded once to the step that the text names at its level."""
    return round_to_step(value, step_at(value, text), tie)


def _read(text: str) -> tuple[Decimal | None, int | None]:
    """The plain step and the count of significant digits; one of them at least."""
    plain, comma, after = (part.strip() for part in text.partition(","))
    if not comma and (found := _DIGITS.fullmatch(plain)):
        return None, int(found["count"])
    found = _DIGITS.fullmatch(after)
    if comma and found is None:
        raise StepRefused(_how(text))
    return _plain(plain, text), int(found["count"]) if found else None


def _plain(plain: str, text: str) -> Decimal:
    try:
        number = read(plain)
    except NumberRefused:
        raise StepRefused(_how(text)) from None
    if number.is_censored or number.value <= 0:
        raise StepRefused(_how(text))
    return number.value


def _how(text: str) -> str:
    return (
        f"“{text}” is no step to report to: write a number above nought such as 0.1, "
        "significant digits such as 3 digits, or both, such as 0.01, 3 digits."
    )


def _of_digits(value: Decimal | Fraction | int, digits: int) -> Decimal | None:
    """The step of so many significant digits; None at nought, which has none."""
    size = abs(Fraction(value))
    if size == 0:
        return None
    power = len(str(size.numerator)) - len(str(size.denominator))
    if Fraction(10) ** power > size:
        power -= 1
    return Decimal((0, (1,), power - digits + 1))


def _coarser(one: Decimal | None, other: Decimal | None) -> Decimal:
    return max((step for step in (one, other) if step), default=Decimal(1))
