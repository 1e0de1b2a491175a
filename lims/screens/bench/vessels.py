"""Oxygen vessels: the pressures as typed and in kPa, the curve, and the same as a table. Nothing is judged here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from lims.bench.evaluation import slots_of
from lims.bench.models import Determination
from lims.drawing.curve import Vessel
from lims.methods.models import Characteristic
from lims.record.clock import now
from lims.wording.numbers import shown
from specs.methods.oxidation import OXIDATION
from specs.methods.pressure import REPORTED_TO
from specs.numbers import Number, NumberRefused, shortened
from specs.units import convert

KPA = "kPa"


@dataclass(frozen=True)
class Read:
    """The pressures of one vessel in kPa, by hour; the maximum stands at 0."""

    name: str
    pressures: Mapping[Decimal, Decimal]

    @property
    def falls(self) -> list[tuple[Decimal, Decimal]]:
        """Hour and fall below the highest pressure, in the order of the hours."""
        if Decimal(0) not in self.pressures:
            return []
        start = self.pressures[Decimal(0)]
        return [(hour, start - it) for hour, it in sorted(self.pressures.items())]


@dataclass(frozen=True)
class Table:
    """The rows beneath the curve: hour, and the fall of each vessel."""

    names: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def is_vessels(characteristic: Characteristic) -> bool:
    return characteristic.procedure == OXIDATION.name


def in_kpa(text: str, unit: str) -> str:
    """A pressure in kPa with one decimal, for a gauge in another unit; empty where that says nothing new."""
    if unit == KPA or unit not in REPORTED_TO:
        return ""
    try:
        value = Number.stored(text).value
    except NumberRefused:
        return ""
    return shown(shortened(convert(value, unit, KPA), 1))


def units_of(determination: Determination | None) -> dict[str, str]:
    """The unit of each gauge by its place; kPa until another is chosen."""
    if determination is None:
        return {}
    rows = sorted(determination.conditions.all(), key=lambda row: row.pk)
    return {
        row.key.removeprefix("unit_"): row.text
        for row in rows
        if row.key.startswith("unit_")
    }


def table(
    characteristic: Characteristic, determination: Determination | None
) -> Table | None:
    """The falls as a table; None for a test that has no vessels."""
    if not is_vessels(characteristic):
        return None
    read = _read(characteristic, determination)
    hours = sorted({hour for it in read for hour, _ in it.falls if hour})
    return Table(
        names=tuple(it.name for it in read),
        rows=tuple(
            (f"{hour:f}", tuple(_cell(dict(it.falls).get(hour)) for it in read))
            for hour in hours
        ),
    )


def _cell(fall: Decimal | None) -> str:
    return "not read" if fall is None else shown(shortened(fall, 1))


def curve(
    characteristic: Characteristic,
    determination: Determination | None,
    *,
    limit: str | None,
    last: Sequence[str],
) -> Mapping[str, Any]:
    """What the curve is drawn from."""
    hours = int(Decimal(characteristic.parameters.get("hours", "100")))
    read = _read(characteristic, determination)
    passed = _passed(determination)
    here = min(passed, Decimal(hours)) if passed is not None else None
    taken = {hour for it in read for hour, _ in it.falls}
    wanted = [*characteristic.parameters.get("interim", "").split(), str(hours)]
    done = f", {int(here)} of {hours} hours" if here is not None else ""
    return {
        "title": f"{characteristic.name}: fall of pressure below its maximum{done}",
        "about": _about(read, limit, hours),
        "hours": hours,
        "vessels": [
            Vessel(it.name, it.falls, [each for each in it.falls if each[0]])
            for it in read
            if it.falls
        ],
        "limit": limit,
        "unit": KPA,
        "last": last,
        "now": here,
        "to_come": [hour for hour in wanted if Decimal(hour) not in taken],
    }


def _passed(determination: Determination | None) -> Decimal | None:
    if determination is None or determination.started_at is None:
        return None
    seconds = (now() - determination.started_at).total_seconds()
    return max(Decimal(seconds), Decimal(0)) / 3600


def _about(read: Sequence[Read], limit: str | None, hours: int) -> str:
    told = [
        f"{it.name} has fallen {shortened(it.falls[-1][1], 1)} kPa after {it.falls[-1][0]:f} h."
        for it in read
        if len(it.falls) > 1
    ]
    if limit:
        told.append(f"The limit is {limit} kPa after {hours} h.")
    return " ".join(told) or "No reading yet."


def _read(
    characteristic: Characteristic, determination: Determination | None
) -> list[Read]:
    units, names = units_of(determination), _names(determination)
    newest: dict[str, str] = {}
    if determination is not None:
        rows = sorted(determination.readings.all(), key=lambda row: row.pk)
        newest = {row.slot: row.value for row in rows}
    found: dict[str, dict[Decimal, Decimal]] = {}
    for slot in slots_of(characteristic):
        place = slot.key.rsplit("_", 1)[1]
        points = found.setdefault(place, {})
        pressure = _pressure(newest.get(slot.key, ""), units.get(place, KPA))
        if pressure is not None:
            points[_hour(slot.row)] = pressure
    return [
        Read(names.get(place, f"Vessel {place}"), points)
        for place, points in found.items()
    ]


def _names(determination: Determination | None) -> dict[str, str]:
    if determination is None:
        return {}
    rows = sorted(determination.conditions.all(), key=lambda row: row.pk)
    return {
        row.key.removeprefix("vessel_"): row.text
        for row in rows
        if row.key.startswith("vessel_")
    }


def _hour(row: str) -> Decimal:
    words = row.split()
    return Decimal(words[0]) if len(words) > 1 else Decimal(0)


def _pressure(text: str, unit: str) -> Decimal | None:
    try:
        number = Number.stored(text)
    except NumberRefused:
        return None
    return None if number.is_censored else convert(number.value, unit, KPA)
