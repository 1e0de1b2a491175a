"""Looking back after an instrument was found off: the results that the bias could have carried across a limit."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from specs.control.reference import ControlRefused

K = Decimal("1.645")  # one-sided 95 %, normal


class Standing(StrEnum):
    """How a result stands after its instrument was found off."""

    SUSPECT = "suspect"
    NOT_KNOWN = "not known"
    CLEAR = "far enough from its limits"
    LOWER_RISK = "lower risk"
    NO_LIMIT = "no limit"


ORDER = tuple(Standing)


@dataclass(frozen=True)
class Weighed:
    """One result weighed; `room` is what is left to the limit beyond the margin, negative where it is suspect."""

    standing: Standing
    room: Fraction | None = None


def margin_of(bias: Decimal | Fraction, uncertainty: Decimal) -> Fraction:
    """|bias| + 1.645 u: how far a true value may lie from what was reported, in their unit.

    Raises ControlRefused for a negative uncertainty. It serves for ranking what to test
    again and never for correcting a value.
    """
    if uncertainty < 0:
        raise ControlRefused("A standard uncertainty is zero or more.")
    return abs(Fraction(bias)) + Fraction(K) * Fraction(uncertainty)


def weigh(
    reported: Decimal,
    *,
    lower: Decimal | None,
    upper: Decimal | None,
    bias: Fraction | None,
    uncertainty: Decimal,
) -> Weighed:
    """Whether a bias may have carried a reported value across a limit.

    An instrument that reads too high hides a value below the lower limit: suspect where
    reported - (bias + 1.645 u) < lower. One that reads too low hides one above the upper.
    Without a known bias nothing can be told, and every result with a limit stays open.
    """
    if lower is None and upper is None:
        return Weighed(Standing.NO_LIMIT)
    if bias is None:
        return Weighed(Standing.NOT_KNOWN)
    rooms = list(_rooms(Fraction(reported), lower, upper, bias, uncertainty))
    if not rooms:
        return Weighed(Standing.CLEAR)
    room = min(rooms)
    return Weighed(Standing.SUSPECT if room < 0 else Standing.CLEAR, room)


def _rooms(
    reported: Fraction,
    lower: Decimal | None,
    upper: Decimal | None,
    bias: Fraction,
    uncertainty: Decimal,
) -> list[Fraction]:
    margin = margin_of(bias, uncertainty)
    found = []
    if lower is not None and bias >= 0:
        found.append(reported - margin - Fraction(lower))
    if upper is not None and bias <= 0:
        found.append(Fraction(upper) - reported - margin)
    return found
