"""Readings of a reference material: their mean, the bias from the assigned value, the limits it is held against."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from specs.judging.rounding import mean
from specs.numbers import Refused, padded, read, shortened

ACTION, WARNING = 3, 2  # standard deviations: Shewhart's, as ISO 7870-2 keeps them


class ControlRefused(Refused):
    """The readings or the standard deviation allow no comparison."""


class Finding(StrEnum):
    """What a reference reading says of the instrument."""

    WITHIN = "within limits"
    WARNING = "beyond the warning limit"
    BEYOND = "beyond the action limit"
    NO_LIMIT = "no limit yet"

    @property
    def is_good(self) -> bool:
        """Whether the instrument measured right, as far as it was judged at all."""
        return self in (Finding.WITHIN, Finding.WARNING)


@dataclass(frozen=True)
class Limits:
    """How far a reading may lie from the assigned value, either way."""

    warning: Decimal
    action: Decimal


@dataclass(frozen=True)
class Judged:
    """One set of readings held against the assigned value."""

    mean: Fraction
    bias: Fraction
    limits: Limits | None
    finding: Finding


def limits_of(deviation: Decimal) -> Limits:
    """Two and three times the site standard deviation, in its unit.

    Raises ControlRefused for a standard deviation that is not above zero.
    """
    if not deviation.is_finite() or deviation <= 0:
        raise ControlRefused("A standard deviation is above zero: write it like 2.53.")
    return Limits(WARNING * deviation, ACTION * deviation)


def judge(
    readings: Sequence[Decimal], assigned: Decimal, deviation: Decimal | None
) -> Judged:
    """The mean of a set less the assigned value, in the unit of both, against the limits.

    A bias equal to a limit lies within it. Without a standard deviation nothing is
    judged: the finding is *no limit yet*. Raises ControlRefused without readings.
    """
    if not readings:
        raise ControlRefused("There is no reading yet: write what was read.")
    middle = mean(readings)
    bias = middle - Fraction(assigned)
    limits = limits_of(deviation) if deviation is not None else None
    return Judged(middle, bias, limits, _finding(abs(bias), limits))


def _finding(size: Fraction, limits: Limits | None) -> Finding:
    if limits is None:
        return Finding.NO_LIMIT
    if size > Fraction(limits.action):
        return Finding.BEYOND
    return Finding.WARNING if size > Fraction(limits.warning) else Finding.WITHIN


def plain(text: str) -> Decimal:
    """A number as typed, exact; NumberRefused for what is none, ControlRefused for a bound."""
    number = read(text)
    if number.sign:
        raise ControlRefused("Write the number alone, without < or >.")
    return number.value


def in_words(
    judged: Judged, assigned: str, material: str = "reference material"
) -> str:
    """A sentence such as ``reference material 296.0, assigned 286, bias +10.0 beyond ±7.6``."""
    told = (
        f"{material} {padded(shortened(judged.mean, 1), 1)}, assigned {assigned}, "
        f"bias {_signed(judged)}"
    )
    if judged.limits is None:
        return f"{told}, no limit yet"
    limit = padded(shortened(judged.limits.action, 1), 1)
    where = "beyond" if judged.finding is Finding.BEYOND else "within"
    return f"{told} {where} ±{limit}"


def _signed(judged: Judged) -> str:
    figures = padded(shortened(abs(judged.bias), 1), 1)
    return f"{'+' if judged.bias >= 0 else '−'}{figures}"
