"""Where the points of a chart stand: values upwards, days or batches to the right."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import ceil, floor, log10

from lims.methods.models import Characteristic
from lims.trends.asked import Along, Point, Span, Trend
from lims.trends.summing import is_numeric, mark_of, number_of, scale_of
from lims.wording.catalogue.times import MONTHS
from lims.wording.numbers import shown

STEPS = (1.0, 2.0, 5.0, 10.0)
MOST_LABELS = 7  # on the upright axis
ROOM = 0.08  # of the range, above and below it
DAY = dt.timedelta(days=1)
YEAR = 12  # months; its words are short
MONTH_STEPS = (1, 2, 3, 6, 12, 24, 60, 120)
A_LABEL, A_LETTER, APART = 95, 6.6, 16  # of the words along the lower axis

Labels = list[tuple[float, str]]


@dataclass(frozen=True)
class Upright:
    """The axis of the values: numbers, or the marks of a scale one step apart, the best at the foot."""

    low: float
    high: float
    marks: tuple[str, ...] = ()
    is_signed: bool = False

    def of(self, value: str) -> float | None:
        """Where a value stands, its bound where no more is known; nothing for words."""
        if self.marks:
            mark = mark_of(value, self.marks)
            return float(self.marks.index(mark)) if mark else None
        number = number_of(value)
        return float(number.value) if number else None

    def labels(self) -> Labels:
        """The figures or marks that stand at the axis."""
        if self.marks:
            return [(float(place), mark) for place, mark in enumerate(self.marks)]
        step = _step((self.high - self.low) / MOST_LABELS)
        places = max(0, -floor(log10(step)))
        return [
            (it, shown(f"{it:.{places}f}", signed=self.is_signed))
            for it in (
                count * step
                for count in range(
                    ceil(self.low / step - 1e-9), floor(self.high / step + 1e-9) + 1
                )
            )
        ]


def _step(least: float) -> float:
    power = 10.0 ** floor(log10(least))
    return next(it * power for it in STEPS if it * power >= least * (1 - 1e-9))


def upright(*trends: Trend) -> Upright | None:
    """One axis for all values and limits of these charts of one characteristic; none where nothing can be placed."""
    of = trends[0].characteristic
    values = [point.value for it in trends for point in it.points]
    limits = [
        limit
        for it in trends
        for span in it.spans
        for limit in (span.lower, span.upper)
    ]
    if not is_numeric(of):
        return _of_marks(values, limits, of)
    placed = [float(it.value) for it in map(number_of, values) if it]
    if not placed:
        return None
    placed += [float(it.value) for it in map(number_of, limits) if it]
    low, high = min(placed), max(placed)
    room = (high - low) * ROOM or _half_step(of)
    return Upright(low - room, high + room, is_signed=of.is_signed)


def _half_step(of: Characteristic) -> float:
    """Around a single value: some steps that the method reports to."""
    step = of.step.split()[0].rstrip(",")
    return 5 * float(Decimal(step)) if "digits" not in of.step else 1.0


def _of_marks(
    values: Sequence[str], limits: Sequence[str], of: Characteristic
) -> Upright | None:
    """From the best mark to one beyond the worst that was given or is allowed."""
    scale = scale_of(of)
    placed = [scale.index(it) for it in (mark_of(v, scale) for v in values) if it]
    if not placed:
        return None
    allowed = [scale.index(it) for it in limits if it in scale]
    last = min(max([*placed, *allowed, 0]) + 1, len(scale) - 1)
    return Upright(-0.5, last + 0.5, scale[: last + 1])


@dataclass(frozen=True)
class Across:
    """The axis from left to right: days, or batches one after the other."""

    first: dt.date
    last: dt.date
    batches: dict[str, int]  # empty along time
    days: tuple[dt.date, ...] = ()  # of each batch's first point, along batches

    @property
    def ends(self) -> tuple[float, float]:
        if self.batches:
            return -0.5, len(self.batches) - 0.5
        room = max((self.last - self.first).days * 0.015, 1.0)
        return -room, (self.last - self.first).days + room

    def of(self, point: Point) -> float:
        """Where a point stands."""
        if self.batches:
            return float(self.batches[point.batch])
        return (point.at.date() - self.first).days + _part_of_day(point.at)

    def of_day(self, day: dt.date | None) -> float | None:
        """Where a day begins: along batches before the first batch of that day or later."""
        if day is None:
            return None
        if not self.batches:
            return float((day - self.first).days)
        earlier = sum(it < day for it in self.days)
        return earlier - 0.5

    def labels(self, width: float) -> Labels:
        """The words along the axis, as many as have room."""
        if not self.batches:
            return self._of_months(max(int(width / A_LABEL), 2))
        longest = A_LETTER * max(len(it) for it in self.batches) + APART
        return self._of_batches(max(int(width / longest), 1))

    def _of_batches(self, most: int) -> Labels:
        names = list(self.batches)
        every = ceil(len(names) / most)
        return [(float(at), names[at]) for at in range(0, len(names), every)]

    def _of_months(self, most: int) -> Labels:
        months = (self.last - self.first).days / 30.4
        every = next(
            (it for it in MONTH_STEPS if months / it <= most * (1 + (it >= YEAR))),
            MONTH_STEPS[-1],
        )
        starts = [it for it in _months(self.first, self.last) if _counts(it, every)]
        if len(starts) < 2:
            starts = sorted({self.first, self.last})
            return [(float((it - self.first).days), _day(it)) for it in starts]
        return [
            (float((it - self.first).days), _month(it, is_first=n == 0, every=every))
            for n, it in enumerate(starts)
        ]


def _part_of_day(at: dt.datetime) -> float:
    return (at.hour * 60 + at.minute) / 1440


def _months(first: dt.date, last: dt.date) -> list[dt.date]:
    found = [first.replace(day=1)]
    while found[-1] <= last:
        found.append((found[-1] + 32 * DAY).replace(day=1))
    return [it for it in found if first <= it <= last]


def _counts(month: dt.date, every: int) -> bool:
    return ((month.year * 12 + month.month - 1) % every) == 0


def _month(day: dt.date, *, is_first: bool, every: int) -> str:
    name = MONTHS["en"][day.month - 1][:3]
    if every >= YEAR:
        return str(day.year)
    return f"{name} {day.year}" if is_first or day.month <= every else name


def _day(day: dt.date) -> str:
    return f"{day.day} {MONTHS['en'][day.month - 1][:3]} {day.year}"


def across(trend: Trend, *others: Trend) -> Across:
    """The axis of all points of a chart, which has one or more; along time with room for the others' days."""
    points = trend.points
    days = [it.at.date() for of in (trend, *others) for it in of.points]
    first, last = min(days), max(days)
    if trend.asked.along != Along.BATCHES:
        return Across(first, last, {})
    begins: dict[str, dt.date] = {}
    for point in points:
        begins.setdefault(point.batch, point.at.date())
    places = {batch: place for place, batch in enumerate(begins)}
    return Across(first, last, places, tuple(begins.values()))


@dataclass(frozen=True)
class Frame:
    """Both axes on the paper."""

    upright: Upright
    across: Across
    left: float
    right: float
    top: float
    bottom: float

    def x(self, place: float) -> float:
        first, last = self.across.ends
        return self.left + (self.right - self.left) * (place - first) / (last - first)

    def y(self, value: float) -> float:
        low, high = self.upright.low, self.upright.high
        return self.bottom - (self.bottom - self.top) * (value - low) / (high - low)

    def limit(self, text: str, *, is_upper: bool) -> float | None:
        """Where a limit stands: of marks behind the last that is allowed."""
        place = self.upright.of(text) if text else None
        if place is None or not self.upright.marks:
            return None if place is None else self.y(place)
        return self.y(place + (0.5 if is_upper else -0.5))

    def stretch(self, span: Span) -> tuple[float, float] | None:
        """From where to where a revision's limits hold; nothing where that lies outside the paper."""
        first, last = self.across.ends
        since, until = self.across.of_day(span.since), self.across.of_day(span.until)
        start = max(first, first if since is None else since)
        end = min(last, last if until is None else until)
        return (self.x(start), self.x(end)) if start < end else None
