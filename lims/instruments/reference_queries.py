"""Questions about reference materials and their readings: which may be read, which are missing, what went before."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import QuerySet

from lims.instruments.models import Instrument, ReferenceMaterial, ReferenceReading
from lims.people.queries import site_zone
from specs.control.individuals import FEWEST, own_deviation


@dataclass(frozen=True)
class Deviation:
    """The standard deviation that limits are made of, with what it rests on; none yet while too few readings stand."""

    value: Decimal | None
    basis: str


@dataclass(frozen=True)
class Missing:
    """An instrument in service whose reference reading is due."""

    instrument: Instrument
    material: ReferenceMaterial
    last: dt.date | None


def materials_for(kind: str, *, on: dt.date) -> QuerySet[ReferenceMaterial]:
    """The materials that an instrument of a kind may read on a day."""
    return ReferenceMaterial.objects.filter(
        kind=kind, expires_on__gte=on
    ).select_related("characteristic")


def deviation_for(material: ReferenceMaterial, instrument: Instrument) -> Deviation:
    """As stated on the material, else from the readings of this instrument that did not lie beyond a limit."""
    if material.deviation:
        return Deviation(Decimal(material.deviation), material.deviation_basis)
    rows = ReferenceReading.objects.filter(instrument=instrument, material=material)
    means = [
        Decimal(it.mean)
        for it in rows.order_by("read_at", "pk")
        if it.is_good or not it.deviation
    ]
    value = own_deviation(means)
    if value is None:
        return Deviation(
            None, f"{len(means)} readings stand, limits need {FEWEST} that differ"
        )
    return Deviation(value, f"{len(means)} readings of {instrument}, moving range")


def readings_of(instrument: Instrument) -> QuerySet[ReferenceReading]:
    """Every reference reading on an instrument, the latest first."""
    return instrument.reference_readings.select_related(
        "material__characteristic", "read_by"
    )


def missing(*, on: dt.date) -> list[Missing]:
    """Which instruments in service have no reading of a material within its interval, up to a day."""
    found = []
    in_service = Instrument.objects.filter(
        state=Instrument.State.IN_SERVICE, due_on__gte=on
    )
    materials = list(ReferenceMaterial.objects.filter(expires_on__gte=on))
    kinds = {it.kind for it in materials}
    last = _last_days(kinds)
    for instrument in in_service.filter(kind__in=kinds):
        for material in (it for it in materials if it.kind == instrument.kind):
            day = last.get((instrument.pk, material.pk))
            if day is None or (on - day).days >= material.every_days:
                found.append(Missing(instrument, material, day))
    return found


def _last_days(kinds: set[str]) -> dict[tuple[int, int], dt.date]:
    rows = ReferenceReading.objects.filter(material__kind__in=kinds).order_by("read_at")
    zone = site_zone()
    return {
        (instrument, material): read_at.astimezone(zone).date()
        for instrument, material, read_at in rows.values_list(
            "instrument_id", "material_id", "read_at"
        )
    }
