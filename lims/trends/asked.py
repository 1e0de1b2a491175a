"""What is asked of a chart, and what it answers: series of points, never mixed, beside the limits as they stood."""

import datetime as dt
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from lims.methods.models import Characteristic
from lims.products.models import Product
from specs.statistics.comparison import Compared
from specs.statistics.summary import Summary


class Where(StrEnum):
    """Where what is charted was taken. The three are never on one chart."""

    FINISHED = "finished"
    KETTLE = "kettle"
    AFTER_MILL = "after mill"


class Along(StrEnum):
    """What runs from left to right."""

    TIME = "time"
    BATCHES = "batches"


class Source(StrEnum):
    """Where a point comes from: one series each."""

    RELEASED = "released"
    NOT_RELEASED = "not released"
    FIRST_VALUE = "first value"  # in process, before anything was corrected
    HISTORY = "history"


@dataclass(frozen=True)
class Asked:
    """One chart: a characteristic of a product, with what narrows it."""

    product: str  # its code
    characteristic: str  # its code
    where: Where = Where.FINISHED
    along: Along = Along.TIME
    kettle: str = ""
    lot: str = ""  # raw-material lot or fill lot, by number
    instrument: str = ""
    person: str = ""  # takes the permission to see persons
    since: dt.date | None = None
    until: dt.date | None = None
    history: bool = True


@dataclass(frozen=True)
class Point:
    """One value of one batch or fill lot."""

    at: dt.datetime  # in the laboratory's zone; of history noon of its day
    batch: str
    lot: str  # the fill lot as it is said: Q1-26-0417 A; empty in history and kettles
    value: str  # canonical, with its sign; or a mark
    said: str  # as shown
    source: Source
    kettle: str = ""
    instrument: str = ""
    person: str = ""
    beside: str = ""  # within, beyond, not known: against the limits of its day
    lot_number: str = ""  # of the fill lot, for its page
    line_id: int | None = None  # of the history line, for its page
    place: str = ""  # kettle, after mill, pack, …; or the pack that history tells


@dataclass(frozen=True)
class Span:
    """The limits of one revision, and the days through which it was in force."""

    revision: str
    since: dt.date | None  # None: from before anything is known
    until: dt.date | None  # None: still in force; else the day it ended
    lower: str
    upper: str
    must: str = ""


@dataclass(frozen=True)
class Series:
    """The points of one source, in order of time."""

    source: Source
    points: tuple[Point, ...]
    summary: Summary | None  # None where there is nothing to sum up


@dataclass(frozen=True)
class Trend:
    """What a chart shows and its table repeats."""

    asked: Asked
    characteristic: Characteristic
    series: tuple[Series, ...]
    spans: tuple[Span, ...]
    notes: tuple[str, ...]

    @property
    def limits_today(self) -> Span | None:
        """The limits that are in force; none where the revision in force states none."""
        return next((it for it in self.spans if it.until is None), None)

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """All points in order of time, as the table lists them."""
        every = (point for it in self.series for point in it.points)
        return tuple(sorted(every, key=lambda it: (it.at, it.batch, it.lot)))


@dataclass(frozen=True)
class OfProduct:
    """A product and how many values can be charted of it."""

    product: Product
    own: int  # reported here
    history: int  # brought in
    latest: dt.date | None = None

    @property
    def total(self) -> int:
        return self.own + self.history


@dataclass(frozen=True)
class OfCharacteristic:
    """A characteristic of a product and how many values can be charted of it, by where they were taken."""

    characteristic: Characteristic
    own: int
    history: int
    by_where: dict[Where, int] = field(default_factory=dict)

    @property
    def total(self) -> int:
        return self.own + self.history


@dataclass(frozen=True)
class Choices:
    """What a product's charts can be narrowed by."""

    kettles: tuple[str, ...]
    lots: tuple[str, ...]
    instruments: tuple[str, ...]
    persons: tuple[str, ...]  # empty without the permission to see persons
    since: dt.date | None = None  # of the first and the last value
    until: dt.date | None = None


@dataclass(frozen=True)
class Comparison:
    """Two charts on one scale, and what their values say of each other, a source each."""

    first: Trend
    second: Trend
    compared: dict[Source, Compared] = field(default_factory=dict)


__all__ = [
    "Along",
    "Asked",
    "Choices",
    "Compared",
    "Comparison",
    "OfCharacteristic",
    "OfProduct",
    "Point",
    "Series",
    "Source",
    "Span",
    "Summary",
    "Trend",
    "Where",
]
