"""The decision rule of a requirement with its figures: which values it accepts, in words for a page and in parts for a paper."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from lims.products.models import Requirement
from specs.judging import rules
from specs.judging.zones import Zone
from specs.numbers import Refused, padded, read, shortened

FACTOR_PLACES = 3
FURTHER_PLACES = 2  # of a zone's end, beyond those of the limits


@dataclass(frozen=True)
class Ruling:
    """A rule that accepts from other ends than the limits; the ends as text, as they are read."""

    rule: str
    zone: Zone
    lower: str
    upper: str
    factor: str  # so many times the uncertainty lie between limit and end
    basis: str  # what the uncertainty is: the laboratory's own, or the method's R
    confidence: str  # one-sided; the rule's own where the line names none
    words: str

    @property
    def accepts(self) -> tuple[str | None, str | None]:
        """The ends, None where there is none."""
        return self.lower or None, self.upper or None


class _Stated(NamedTuple):
    """What a line states for its rule."""

    rule: str
    lower: str
    upper: str
    uncertainty: str
    basis: str
    confidence: str


def ruling_of(requirement: Requirement) -> Ruling | None:
    """The rule of a line; None where the limits themselves are what it accepts, or where it names no rule that can be carried out."""
    if requirement.kind != Requirement.Kind.LIMIT or not requirement.uncertainty:
        return None
    stated = _Stated(*(getattr(requirement, name) for name in _Stated._fields))
    try:
        is_moved = rules.needs_uncertainty(stated.rule)
        return _ruling(stated) if is_moved else None
    except Refused:
        return None


@lru_cache(maxsize=1024)
def _ruling(stated: _Stated) -> Ruling:
    rule, lower, upper, uncertainty, basis, confidence = stated
    zone = rules.zone_of(
        rule,
        lower,
        upper,
        uncertainty=uncertainty,
        basis=basis,
        confidence=confidence,
    )
    places = max(map(_decimals, (lower, upper)))
    return Ruling(
        rule=rule,
        zone=zone,
        lower=_end(zone.lower, places),
        upper=_end(zone.upper, places),
        factor=_factor(zone, stated),
        basis=basis or rules.RULES[rule].bases[0],
        confidence=confidence or rules.RULES[rule].confidence,
        words=rules.in_words(
            rule,
            lower,
            upper,
            uncertainty=uncertainty,
            basis=basis,
            confidence=confidence,
        ),
    )


def _end(end: Decimal | None, places: int) -> str:
    """An end with at least the decimals of the limits, which carry meaning, and a few more where it has them."""
    if end is None:
        return ""
    return padded(shortened(end, places + FURTHER_PLACES), places)


def _factor(zone: Zone, stated: _Stated) -> str:
    """1.645: how many uncertainties an end lies from its limit."""
    end, limit = (
        (zone.upper, stated.upper) if zone.lower is None else (zone.lower, stated.lower)
    )
    width = abs(Fraction(end or 0) - read(limit).exact)
    return shortened(width / read(stated.uncertainty).exact, FACTOR_PLACES)


def _decimals(limit: str) -> int:
    return len(read(limit).canonical.partition(".")[2]) if limit else 0
