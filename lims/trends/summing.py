"""What the values of a series say together, each kind of characteristic in its way."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from lims.methods.models import Characteristic
from lims.trends.asked import Point, Series
from specs.methods.catalogue import PROCEDURES
from specs.numbers import Number, NumberRefused
from specs.statistics.line import FEWEST, Line, line_of
from specs.statistics.moving import Moving, moving_of
from specs.statistics.summary import (
    Summary,
    summary_of,
    summary_of_loads,
    summary_of_marks,
)
from specs.tables.texts.marks import JOINT

Kind = Characteristic.Kind
NUMBERS = (Kind.NUMBER, Kind.LADDER)


def is_numeric(of: Characteristic) -> bool:
    """Whether its values are numbers; loads of a ladder are, and are ordered but never averaged."""
    return of.kind in NUMBERS


def scale_of(of: Characteristic) -> tuple[str, ...]:
    """The marks of a rating or a finding, best first; nothing for numbers and words."""
    return tuple(PROCEDURES[of.procedure].scale)


def numbers_of(points: Sequence[Point]) -> list[Number]:
    """The values that are numbers, bounds among them, in their order."""
    found = (number_of(it.value) for it in points)
    return [it for it in found if it is not None]


def number_of(value: str) -> Number | None:
    """The number or bound of a value; none of a mark or of words."""
    try:
        return Number.stored(value.removeprefix("+"))
    except NumberRefused:
        return None


def mark_of(value: str, scale: Sequence[str]) -> str:
    """The mark of a rating, of two joined ones the worse; empty for what is none of the scale."""
    parts = [value] if value in scale else value.split(JOINT)
    if any(it not in scale for it in parts):
        return ""
    return max(parts, key=scale.index, default="")


def summed_up(points: Sequence[Point], of: Characteristic) -> Summary | None:
    """The figures of a series; none where it holds no number and no mark."""
    if is_numeric(of):
        numbers = numbers_of(points)
        summed = summary_of_loads if of.kind == Kind.LADDER else summary_of
        return summed(numbers) if numbers else None
    scale = scale_of(of)
    marks = [mark_of(it.value, scale) for it in points] if scale else []
    marks = [it for it in marks if it] or [it.value for it in points if not scale]
    return summary_of_marks(marks, scale) if marks else None


@dataclass(frozen=True)
class OverTime:
    """Whether a series moves: days since its first value to the right."""

    first: dt.date
    line: Line
    moving: Moving


def over_time(series: Series, of: Characteristic) -> OverTime | None:
    """The line through a series and whether it moves; none for fewer than three values, for marks, loads and bounds, and for values of one day."""
    numbers = numbers_of(series.points)
    if of.kind != Kind.NUMBER or len(numbers) < max(FEWEST, len(series.points)):
        return None
    days = [it.at.date() for it in series.points]
    if any(it.is_censored for it in numbers) or len(set(days)) == 1:
        return None
    places = [(it - days[0]).days for it in days]
    values: list[Decimal] = [it.value for it in numbers]
    return OverTime(days[0], line_of(places, values), moving_of(places, values))
