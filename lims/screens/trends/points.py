"""One value of a chart as its table shows it, and where it leads."""

import datetime as dt
from dataclasses import dataclass

from django.urls import reverse

from lims.drawing.trend_points import NAMES
from lims.screens.zone import zone
from lims.trends.asked import Point, Source
from lims.wording import dates

BESIDE = {
    "within": "within",
    "beyond": "beyond",
    "not known": "not known",
    "": "no limit",
}


@dataclass(frozen=True)
class Shown:
    """A value as a row of the table."""

    point: Point
    day: dt.date
    clock: str  # empty for history, of which only the day is known
    name: str
    address: str
    source: str
    beside: str
    kettle: str
    instrument: str
    person: str


def address(point: Point) -> str:
    """Where a point leads: its fill lot, the line of history that told it, or its batch."""
    if point.line_id is not None:
        return reverse("imports:history", args=[point.line_id])
    if point.lot_number:
        return reverse("batches:lot", args=[point.lot_number])
    return reverse("batches:batch", args=[point.batch])


def day_of(point: Point) -> dt.date:
    """The day on the laboratory's calendar; a day that a file told stays that day."""
    if point.source == Source.HISTORY:
        return point.at.date()
    return dates.local_day(point.at, zone())


def day_words(point: Point) -> str:
    """``4 March 2026``."""
    return dates.day(day_of(point), zone())


def shown(point: Point) -> Shown:
    is_told = point.source == Source.HISTORY
    missing = "not told" if is_told else "none"
    return Shown(
        point=point,
        day=day_of(point),
        clock="" if is_told else dates.clock(point.at, zone()),
        name=point.lot or point.batch,
        address=address(point),
        source=NAMES[point.source],
        beside=BESIDE[point.beside],
        kettle=point.kettle or missing,
        instrument=point.instrument or missing,
        person=point.person or missing,
    )
