"""Reference materials added and read. A reading beyond the action limit takes the instrument out of service in the same entry."""

import datetime as dt
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from lims.instruments import reference_rules, rules
from lims.instruments.models import Instrument, ReferenceMaterial, ReferenceReading
from lims.instruments.reference_queries import Deviation, deviation_for
from lims.methods.models import Characteristic
from lims.people.days import today
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record import clock
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput
from specs.control.reference import Finding, Judged, in_words, judge
from specs.numbers import Number, to_decimal


def add_reference_material(
    *,
    name: str,
    lot: str,
    kind: str,
    characteristic: Characteristic,
    assigned: str,
    basis: str,
    deviation: str = "",
    deviation_basis: str = "",
    count: int = 3,
    every_days: int = 7,
    expires_on: dt.date,
    by: Person,
) -> ReferenceMaterial:
    """Add a material with its assigned value and, where it is known, the site standard deviation, both with what they rest on."""
    check(by, Permission.KEEP_INSTRUMENTS)
    value = reference_rules.number(assigned, field="assigned")
    reference_rules.check_deviation(deviation, deviation_basis)
    reference_rules.check_counts(count, every_days)
    reference_rules.check_expiry(expires_on, today())
    row = ReferenceMaterial(
        name=name.strip(),
        lot=lot.strip(),
        kind=kind.strip(),
        characteristic=characteristic,
        assigned=f"{value:f}",
        basis=basis.strip(),
        deviation=_plain(deviation),
        deviation_basis=deviation_basis.strip() if deviation.strip() else "",
        count=count,
        every_days=every_days,
        expires_on=expires_on,
        added_at=clock.now(),
        added_by=by,
    )
    check_filled(row)
    with entry(by=by, verb="reference_material_added", about=row):
        _check_is_new(row)
        row.save()
    return row


def read_reference(
    *,
    instrument: Instrument,
    material: ReferenceMaterial,
    readings: Sequence[str],
    version: int | None = None,
    by: Person,
) -> ReferenceReading:
    """Record a set of readings; beyond the action limit the instrument is out of service at once, with the numbers as its reason."""
    check(by, Permission.CHECK_INSTRUMENTS)
    rules.check_not_retired(instrument)
    reference_rules.check_fits(material, instrument.kind, today=today())
    values = reference_rules.readings_of(material, readings)
    with entry(by=by, verb="reference_read", about=instrument) as record:
        spread = deviation_for(material, instrument)
        judged = judge(values, Decimal(material.assigned), spread.value)
        record.note = in_words(judged, material.assigned, material.name)
        row = _row(judged, spread, material)
        row.instrument, row.read_by = instrument, by
        row.instrument_state = instrument.state_on(today())
        row.texts = [text.strip() for text in readings]
        row.save()
        if judged.finding is Finding.BEYOND:
            _take_out(instrument, record.note, version)
    return row


def _row(
    judged: Judged, spread: Deviation, material: ReferenceMaterial
) -> ReferenceReading:
    return ReferenceReading(
        material=material,
        mean=_exact(judged.mean),
        assigned=material.assigned,
        bias=_exact(judged.bias),
        deviation=f"{spread.value:f}" if spread.value is not None else "",
        deviation_basis=spread.basis,
        finding=str(judged.finding),
        read_at=clock.now(),
    )


def _exact(value: Fraction) -> str:
    return Number.of(to_decimal(value)).canonical


def _take_out(instrument: Instrument, reason: str, version: int | None) -> None:
    rules.put_out(instrument, reason)
    instrument.save_if_version(instrument.version if version is None else version)


def _check_is_new(row: ReferenceMaterial) -> None:
    if ReferenceMaterial.objects.filter(name=row.name, lot=row.lot).exists():
        raise BadInput(
            f"{row} stands here already: open it, or write another lot.", field="lot"
        )


def _plain(text: str) -> str:
    return (
        f"{reference_rules.number(text, field='deviation'):f}" if text.strip() else ""
    )
