"""Acceptance zones: how far an uncertainty draws the limits in, and how likely the true value lies inside them (JCGM 106, ISO 4259-2)."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import erfc, sqrt

from specs.judging.constants import EXACT, constants_of
from specs.judging.quantiles import normal
from specs.numbers import EXACT as DIGITS_28
from specs.numbers import Number, Refused, padded, read, shortened, to_decimal

USUAL_CONFIDENCE = "0.95"
PLACES = 12  # of a probability

Plain = str | Decimal | Fraction
"""A number as it is typed, or computed."""


class ZoneRefused(Refused):
    """Limits, an uncertainty or a confidence that give no zone and no probability."""


@dataclass(frozen=True)
class Zone:
    """Where accepted values lie, both ends included; None where there is no limit."""

    lower: Decimal | None
    upper: Decimal | None

    @property
    def is_empty(self) -> bool:
        """Whether the ends have crossed, so that no value can be accepted."""
        return (
            self.lower is not None
            and self.upper is not None
            and self.lower > self.upper
        )

    def told(self, places: int = 2, *, least: int = 0) -> str:
        """The zone in words with rounded ends: "268.55 to 291.45"; `least` decimals are kept."""
        low, high = (
            None if end is None else padded(shortened(end, places), least)
            for end in (self.lower, self.upper)
        )
        if low is not None and high is not None:
            return f"{low} to {high}"
        return f"{high} and below" if low is None else f"{low} and above"


def acceptance_zone(
    lower: Plain | None,
    upper: Plain | None,
    *,
    u: Plain | None = None,
    R: Plain | None = None,
    confidence: Plain = USUAL_CONFIDENCE,
    constants: str = EXACT,
) -> Zone:
    """The limits drawn in so that a value on an end has its true value inside that limit with the confidence.

    Exactly one of `u` (standard uncertainty) and `R` (reproducibility) is given, in the
    unit of the limits. Each limit is guarded by itself (one-sided), so that in a zone
    that is narrow beside the uncertainty both limits together have a little less.
    The zone may be empty. Raises ZoneRefused for limits that are missing or crossed
    and for what `guard_width` refuses. Source: JCGM 106:2012, guarded acceptance;
    ISO 4259-2, limits of a single result.
    """
    width = guard_width(u=u, R=R, confidence=confidence, constants=constants)
    return zone_drawn_in(lower, upper, width)


def zone_drawn_in(lower: Plain | None, upper: Plain | None, width: Fraction) -> Zone:
    """The zone whose ends lie `width` inside the limits, outside them where it is below nought."""
    low, high = _limits(lower, upper)
    return Zone(
        None if low is None else to_decimal(low + width),
        None if high is None else to_decimal(high - width),
    )


def guard_width(
    *,
    u: Plain | None = None,
    R: Plain | None = None,
    confidence: Plain = USUAL_CONFIDENCE,
    constants: str = EXACT,
) -> Fraction:
    """How far one limit moves: z u, or z R / (1.96 √2), one-sided.

    The printed constants have 0.59 for z / (1.96 √2) at 0.95, and no other. Raises
    ZoneRefused unless exactly one of u and R is given, above zero, and the confidence
    lies above 0.5 and below 1.
    """
    known = constants_of(constants)
    sure = to_decimal(_exact(confidence, "the confidence"))
    if not Decimal("0.5") < sure < 1:
        raise ZoneRefused(
            f"{confidence} is no confidence for a decision: write a share above 0.5 "
            "and below 1, such as 0.95."
        )
    if u is not None and R is None:
        return Fraction(normal(sure)) * _above_zero(u, "standard uncertainty")
    if R is not None and u is None:
        return Fraction(known.one_sided_of_R(sure)) * _above_zero(R, "reproducibility")
    raise ZoneRefused("Name either the standard uncertainty u or the method's R.")


def probability_of_conformity(
    value: Plain | Number,
    u: Plain,
    lower: Plain | None = None,
    upper: Plain | None = None,
) -> Decimal:
    """How likely the true value lies within the limits, given a measured value and u.

    The true value is taken as normally distributed about the measured one, with no
    further knowledge: Φ((upper − y)/u) − Φ((lower − y)/u), to twelve decimals.
    Raises ZoneRefused for a bound (">288"), a u that is not above zero, and limits
    that are missing or crossed. Source: JCGM 106:2012, clause on specific risk.
    """
    low, high = _limits(lower, upper)
    width = _above_zero(u, "standard uncertainty")
    measured = _exact(value, "the value")
    below = 0.0 if low is None else _tail((measured - low) / width)
    above = 0.0 if high is None else _tail((high - measured) / width)
    inside = 1 - Fraction(below) - Fraction(above)
    return Decimal(round(max(inside, 0) * 10**PLACES)).scaleb(-PLACES, DIGITS_28)


def _tail(distance: Fraction) -> float:
    """The chance of a standard normal above `distance`: half of erfc."""
    return erfc(float(distance) / sqrt(2)) / 2


def _limits(
    lower: Plain | None, upper: Plain | None
) -> tuple[Fraction | None, Fraction | None]:
    low, high = (
        None if limit is None or limit == "" else _exact(limit, "a limit")
        for limit in (lower, upper)
    )
    if low is None and high is None:
        raise ZoneRefused("There is no limit, so there is no zone: name one.")
    if low is not None and high is not None and low > high:
        raise ZoneRefused(f"The lower limit {lower} is above the upper limit {upper}.")
    return low, high


def _above_zero(value: Plain, what: str) -> Fraction:
    number = _exact(value, f"the {what}")
    if number <= 0:
        raise ZoneRefused(f"A {what} of {value} is none: it lies above zero.")
    return number


def _exact(value: Plain | Number, what: str) -> Fraction:
    """The exact number of a text or a computed value. Raises ZoneRefused for a bound."""
    if isinstance(value, str):
        try:
            value = read(value)
        except Refused as refusal:
            raise ZoneRefused(f"{what.capitalize()}: {refusal.sentence}") from None
    if isinstance(value, Number):
        if value.is_censored:
            raise ZoneRefused(f"{value} is only a bound: {what} is a plain number.")
        return value.exact
    if isinstance(value, Decimal) and not value.is_finite():
        raise ZoneRefused(f"{what.capitalize()} is not finite.")
    return Fraction(value)
