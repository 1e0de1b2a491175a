"""Whether a series moves, in words: the line through it with its interval, and the two tests that suppose no line."""

from dataclasses import dataclass
from decimal import Decimal

from lims.methods.models import Characteristic
from lims.screens.trends import words
from lims.trends import queries
from lims.trends.asked import Series, Trend
from lims.trends.summing import OverTime
from lims.wording.numbers import with_unit
from specs.statistics.intervals import Interval

YEAR, MONTH = Decimal("365.25"), Decimal(30)  # days
SMALLEST = Decimal("0.001")


@dataclass(frozen=True)
class Moving:
    """One series over time: what the line says, and what else is computed."""

    name: str
    count: int
    sentence: str
    details: str


@dataclass(frozen=True)
class Pace:
    """How slopes a day are told: over how many days, and what that is called."""

    days: Decimal
    words: str
    characteristic: Characteristic

    def figure(self, slope: Decimal, *, signed: bool = True) -> str:
        slope *= self.days
        return words.figure(slope, self.characteristic, more=2, signed=signed)

    def between(self, slope: Interval) -> str:
        return f"95 % interval {self.figure(slope.lower)} to {self.figure(slope.upper)}"


def rows_of(trend: Trend) -> list[Moving]:
    """A row for each series that a line can be drawn through."""
    found = [_row(series, trend.characteristic) for series in trend.series]
    return [it for it in found if it is not None]


def _row(series: Series, measured: Characteristic) -> Moving | None:
    over = queries.over_time(series, measured)
    if over is None:
        return None
    pace = _pace((series.points[-1].at - series.points[0].at).days, measured)
    name = words.SERIES[series.source]
    return Moving(
        name,
        over.line.count,
        _sentence(name, over.line.slope, pace),
        _details(over, pace),
    )


def _pace(days: int, measured: Characteristic) -> Pace:
    """In years only where a year was seen: a slope of some days says nothing of a year."""
    if days >= YEAR:
        return Pace(YEAR, "a year", measured)
    if days >= MONTH:
        return Pace(MONTH, "in 30 days", measured)
    return Pace(Decimal(1), "a day", measured)


def _sentence(name: str, slope: Interval, pace: Pace) -> str:
    """A rise or a fall is told only where the interval holds no nought."""
    if slope.holds(0):
        return (
            f"No rise or fall of {name} can be told: {pace.figure(slope.value)} "
            f"{pace.words} ({pace.between(slope)})."
        )
    verb = "rise" if slope.value > 0 else "fall"
    by = with_unit(
        pace.figure(abs(slope.value), signed=False), pace.characteristic.unit
    )
    many = "s" if name.endswith("history") else ""
    return (
        f"{name.capitalize()} {verb}{many} by {by} {pace.words} "
        f"({pace.between(slope)})."
    )


def _details(over: OverTime, pace: Pace) -> str:
    moving = over.moving
    about = words.figure(over.line.s, pace.characteristic, more=2)
    told = [words.number_of(over.line.count, "value"), f"s about the line {about}"]
    if moving.slope is not None:
        told.append(
            f"Theil and Sen {pace.figure(moving.slope.value)} {pace.words} "
            f"({pace.between(moving.slope)})"
        )
    told.append(f"Mann and Kendall {probability(moving.p)}")
    return f"{'; '.join(told)}."


def probability(p: Decimal) -> str:
    """``p = 0.034``, ``p < 0.001``."""
    return "p < 0.001" if p < SMALLEST else f"p = {p.quantize(SMALLEST)}"
