"""Stating the laboratory's own uncertainty of a characteristic, with a signature. Nothing stated is ever changed."""

from django.db.models import Max

from lims.methods import figure_rules, signing
from lims.methods.models import Characteristic, OwnUncertainty
from lims.methods.rules import read_number
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput
from lims.record.signatures import sign

ABOVE_NOUGHT = ("uncertainty", "site_precision")
NUMBERS = (*ABOVE_NOUGHT, "level_from", "level_to")


def state_own_uncertainty(
    *,
    characteristic: Characteristic,
    uncertainty: str,
    basis: str,
    site_precision: str = "",
    level_from: str = "",
    level_to: str = "",
    password: str,
    by: Person,
) -> OwnUncertainty:
    """State the own standard uncertainty over a range of level, and how it was found.

    The statement before it stays in the record; the newest that reaches a level stands.
    """
    check(by, Permission.APPROVE_FIGURES)
    row = OwnUncertainty(
        characteristic=characteristic,
        number=0,
        uncertainty=uncertainty,
        site_precision=site_precision,
        level_from=level_from,
        level_to=level_to,
        basis=basis.strip(),
    )
    _check(row)
    with entry(by=by, verb="own_uncertainty_stated", about=characteristic) as it:
        row.number = _next_number(characteristic)
        row.stated_at, row.stated_by = it.at, by
        row.signature = sign(
            by=by,
            password=password,
            meaning=signing.STATED,
            about=row,
            version=row.number,
            content=signing.uncertainty_content(row),
        )
        row.save()
    return row


def _check(row: OwnUncertainty) -> None:
    if row.characteristic.kind != Characteristic.Kind.NUMBER:
        raise BadInput(
            f"“{row.characteristic.in_full}” is of the kind {row.characteristic.kind}: "
            "an uncertainty is stated of numbers only, so leave it.",
            field="uncertainty",
        )
    for field in NUMBERS:
        text = getattr(row, field).strip()
        setattr(row, field, read_number(text, field).canonical if text else "")
    check_filled(row)
    for field in ABOVE_NOUGHT:
        text = getattr(row, field)
        if text and read_number(text, field).value <= 0:
            raise BadInput(
                f"{text} is no uncertainty: write a number above nought.", field=field
            )
    figure_rules.check_range(row.level_from, row.level_to)


def _next_number(characteristic: Characteristic) -> int:
    last = characteristic.own_uncertainties.aggregate(last=Max("number"))["last"]
    return (last or 0) + 1
