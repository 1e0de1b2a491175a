"""When a reference material may be added and read; each refusal says what to do."""

import datetime as dt
from collections.abc import Sequence
from decimal import Decimal

from lims.instruments.models import ReferenceMaterial
from lims.people.days import check_sensible
from lims.record.refusals import BadInput, WrongMove
from specs.control.reference import limits_of, plain
from specs.numbers import Refused

MOST_READINGS, LONGEST_TEXT, LONGEST_INTERVAL = 10, 20, 366


def number(text: str, *, field: str) -> Decimal:
    """The number typed into a box; BadInput names the box."""
    if not text.strip():
        raise BadInput("Write a number here.", field=field)
    if len(text.strip()) > LONGEST_TEXT:
        raise BadInput(
            f"Write the number in at most {LONGEST_TEXT} characters.", field=field
        )
    try:
        return plain(text)
    except Refused as refused:
        raise BadInput(refused.sentence, field=field) from None


def check_deviation(deviation: str, basis: str) -> None:
    """Refuse a standard deviation that is none, or that does not say whence it comes."""
    if not deviation.strip():
        return
    value = number(deviation, field="deviation")
    try:
        limits_of(value)
    except Refused as refused:
        raise BadInput(refused.sentence, field="deviation") from None
    if not basis.strip():
        raise BadInput(
            "Say where the standard deviation comes from.", field="deviation_basis"
        )


def check_expiry(expires_on: dt.date, today: dt.date) -> None:
    """Refuse a material that may no longer be used."""
    check_sensible(expires_on, field="expires_on")
    if expires_on < today:
        raise BadInput(
            f"It expired on {expires_on.isoformat()}: use another lot.",
            field="expires_on",
        )


def check_counts(count: int, every_days: int) -> None:
    """Refuse a set without readings, and an interval that is none."""
    if not 1 <= count <= MOST_READINGS:
        raise BadInput(
            f"A set has 1 to {MOST_READINGS} readings: three are usual.", field="count"
        )
    if not 1 <= every_days <= LONGEST_INTERVAL:
        raise BadInput(
            f"Write 1 to {LONGEST_INTERVAL} days: 1 for each day of use, 7 for each week.",
            field="every_days",
        )


def check_fits(material: ReferenceMaterial, kind: str, *, today: dt.date) -> None:
    """Refuse a material for another kind of instrument, and one that has expired."""
    if material.kind != kind:
        raise WrongMove(
            f"{material} is read on a {material.kind}, not on a {kind}: choose another."
        )
    if material.expires_on < today:
        raise WrongMove(
            f"{material} expired on {material.expires_on.isoformat()}: use another lot."
        )


def readings_of(material: ReferenceMaterial, texts: Sequence[str]) -> list[Decimal]:
    """The readings of a whole set; BadInput names the box that holds none."""
    if len(texts) != material.count:
        raise BadInput(
            f"A set of {material} has {material.count} readings: write all of them.",
            field="reading_1",
        )
    found = [
        number(text, field=f"reading_{place}") for place, text in enumerate(texts, 1)
    ]
    for place, value in enumerate(found, 1):
        if value < 0:
            raise BadInput("A reading is not below zero.", field=f"reading_{place}")
    return found
