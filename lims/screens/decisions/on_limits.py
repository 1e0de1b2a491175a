"""A value on the ruler of its requirement: what the drawing is given."""

from collections.abc import Sequence
from typing import Any

from lims.bench.evaluation import procedure_of
from lims.decisions.evidence import ON_LOT
from lims.decisions.rulings import ruling_of
from lims.methods.models import Characteristic
from lims.products.models import Requirement
from lims.wording import numbers

Kind = Characteristic.Kind


def ruler_of(
    requirement: Requirement,
    value: str,
    verdict: str,
    last: Sequence[str],
    evidence: str,
) -> tuple[str, dict[str, Any]]:
    """Which ruler shows a line, "limit" or "rating", and what it is given; nothing for words and findings."""
    characteristic = requirement.characteristic
    is_drawn = is_numeric(characteristic) or characteristic.kind == Kind.RATING
    if requirement.kind != Requirement.Kind.LIMIT or not is_drawn:
        return "", {}
    shared = {
        "name": characteristic.name,
        "verdict": verdict,
        "other": bool(evidence) and evidence != ON_LOT,
    }
    if characteristic.kind == Kind.RATING:
        return "rating", shared | _on_scale(requirement, value, last)
    ruling = ruling_of(requirement)
    return "limit", shared | bounds_of(requirement) | {
        "accept": ruling.accepts if ruling else None,
        "value": value if is_number(value) else None,
        "last": [it for it in last if is_number(it)],
    }


def _on_scale(
    requirement: Requirement, value: str, last: Sequence[str]
) -> dict[str, Any]:
    """The mark by which a rating is judged: of a pair of bearings the worse."""
    procedure = procedure_of(requirement.characteristic)
    judged = [procedure.judged_as(it) for it in last]
    return {
        "limit": requirement.upper,
        "value": procedure.judged_as(value) if value else None,
        "last": [it for it in judged if it in procedure.scale],
        "words": procedure.scale,
    }


def bounds_of(requirement: Requirement) -> dict[str, Any]:
    """What every ruler of one requirement has in common, so that they can be compared."""
    characteristic = requirement.characteristic
    low, high = requirement.internal_lower or None, requirement.internal_upper or None
    return {
        "lower": requirement.lower or None,
        "upper": requirement.upper or None,
        "internal": (low, high) if low or high else None,
        "unit": characteristic.unit,
        "signed": characteristic.is_signed,
        "span": characteristic.span or None,
    }


def is_numeric(characteristic: Characteristic) -> bool:
    """A number, or one of a ladder, which is held against limits like a number."""
    return characteristic.kind in (Kind.NUMBER, Kind.LADDER)


def is_number(text: str) -> bool:
    return numbers.NUMBER.fullmatch(text.strip()) is not None
