"""What two groups of values say of each other, in words, and which groups could be looked at."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_EVEN, Decimal
from itertools import combinations
from typing import Any

from django.urls import reverse

from lims.methods.models import Characteristic
from lims.screens.trends import asking, drawn, words
from lims.trends.asked import (
    Asked,
    Choices,
    Compared,
    Comparison,
    Point,
    Series,
    Summary,
    Trend,
)
from lims.wording.numbers import counts, with_unit
from specs.statistics.intervals import Interval

NOTHING = "Nothing is compared: what is asked for needs another look."
SAME = "Both groups ask for the same values: change one of them."
YEAR = dt.timedelta(days=365)
MOST_OFFERS = 6
RATIO = Decimal("0.01")


@dataclass(frozen=True)
class Line:
    """One figure of both groups, and how the second stands beside the first."""

    name: str
    first: str
    second: str
    beside: str


@dataclass(frozen=True)
class Table:
    """The figures of both groups from one source."""

    name: str
    lines: tuple[Line, ...]
    why_not: str


@dataclass(frozen=True)
class Offer:
    """Two groups that could be compared."""

    words: str
    address: str


def page(found: Comparison) -> dict[str, Any]:
    """Two groups on one scale, with their figures."""
    names = group_words(found.first.asked), group_words(found.second.asked)
    shared = in_both(found)
    return {
        "is_asked": True,
        "found": found,
        "names": names,
        "answer": _answer(found, names),
        "groups": list(zip(names, drawn.both(found), strict=True)),
        "is_empty": not (found.first.points or found.second.points),
        "tables": list(tables(found)),
        "shared": words.number_of(shared, "value") if shared else "",
        "is_same": found.first.asked == found.second.asked,
    }


def group_words(asked: Asked) -> str:
    """What makes a group, in words."""
    return (
        words.listed(asking.narrowed_by(replace(asked, history=True))) or "all values"
    )


def _answer(found: Comparison, names: tuple[str, str]) -> str:
    if found.first.asked == found.second.asked:
        return SAME
    told = [
        f"{name[:1].upper()}{name[1:]}: {words.number_of(len(side.points), 'value')}"
        for name, side in zip(names, _sides(found), strict=True)
    ]
    return f"{told[0]}. {told[1]}."


def in_both(found: Comparison) -> int:
    """How many values stand in both groups: the intervals suppose that none does."""
    first = {_which(it) for it in found.first.points}
    return sum(_which(it) in first for it in found.second.points)


def _which(point: Point) -> tuple[object, ...]:
    return (point.source, point.line_id, point.batch, point.lot_number, point.at)


def tables(found: Comparison) -> Iterator[Table]:
    """A table for each source from which either group has values."""
    by_source = [{it.source: it for it in side.series} for side in _sides(found)]
    for source, name in words.SERIES.items():
        pair = by_source[0].get(source), by_source[1].get(source)
        if any(pair):
            compared = found.compared.get(source)
            lines = tuple(_lines(pair, compared, found.first.characteristic))
            yield Table(name, lines, compared.why_not if compared else "")


def _sides(found: Comparison) -> tuple[Trend, Trend]:
    return found.first, found.second


def _lines(
    pair: tuple[Series | None, Series | None],
    compared: Compared | None,
    measured: Characteristic,
) -> Iterator[Line]:
    first, second = (it.summary if it else None for it in pair)
    yield Line("Number", _number(pair[0]), _number(pair[1]), "")
    if measured.kind == Characteristic.Kind.NUMBER:
        yield Line(
            "Mean",
            *_both(first, second, "mean", measured, 1),
            _apart(compared, measured),
        )
    if any(it and it.median for it in (first, second)):
        yield Line(
            "Median",
            _median(first, measured),
            _median(second, measured),
            _medians(compared, measured),
        )
    if measured.kind == Characteristic.Kind.NUMBER:
        yield Line("s", *_both(first, second, "s", measured, 2), _ratio(compared))
    if any(it and it.counts for it in (first, second)):
        yield Line("Of these", _marks(first), _marks(second), "")


def _number(series: Series | None) -> str:
    return counts(len(series.points)) if series else "none"


def _both(
    first: Summary | None,
    second: Summary | None,
    name: str,
    measured: Characteristic,
    more: int,
) -> tuple[str, str]:
    is_signed = measured.is_signed and name == "mean"
    one, other = (
        words.figure(getattr(it, name), measured, more=more, signed=is_signed)
        or words.NOT_DETERMINED
        if it
        else "none"
        for it in (first, second)
    )
    return one, other


def _median(of: Summary | None, measured: Characteristic) -> str:
    if of is None:
        return "none"
    return words.result(of.median, measured) or words.NOT_DETERMINED


def _marks(of: Summary | None) -> str:
    return ", ".join(f"{mark}: {count}" for mark, count in of.counts) if of else "none"


def _apart(compared: Compared | None, measured: Characteristic) -> str:
    """``+2.9 (95 % interval +1.9 to +3.9)``."""
    if compared is None or compared.means is None:
        return words.NOT_DETERMINED
    apart = compared.means
    value, low, high = (
        words.figure(it, measured, signed=True)
        for it in (apart.value, apart.lower, apart.upper)
    )
    apart_by = with_unit(value, measured.unit, signed=True)
    return f"{apart_by} (95 % interval {low} to {high})"


def _medians(compared: Compared | None, measured: Characteristic) -> str:
    if measured.kind != Characteristic.Kind.NUMBER:
        return ""  # marks and loads have an order and no difference
    if compared is None or compared.medians is None:
        return words.NOT_DETERMINED
    apart = words.figure(compared.medians, measured)
    return with_unit(apart, measured.unit, signed=True)


def _ratio(compared: Compared | None) -> str:
    """``× 0.96 (95 % interval 0.85 to 1.09)``."""
    ratio: Interval | None = compared.spreads if compared else None
    if ratio is None:
        return words.NOT_DETERMINED
    value, low, high = (
        it.quantize(RATIO, ROUND_HALF_EVEN)
        for it in (ratio.value, ratio.lower, ratio.upper)
    )
    return f"× {value} (95 % interval {low} to {high})"


def offers_page(plain: Asked, found: Choices) -> dict[str, Any]:
    """Groups that could be compared, where nothing is asked for yet."""
    return {
        "answer": "Two groups of values on one scale: choose what makes each of them.",
        "offers": list(offers(plain, found)),
    }


def offers(plain: Asked, found: Choices) -> Iterator[Offer]:
    """Pairs of kettles, and the last year beside the one before."""
    for first, second in list(combinations(found.kettles, 2))[:MOST_OFFERS]:
        yield _offer(
            f"Kettle {first} and kettle {second}",
            replace(plain, kettle=first),
            replace(plain, kettle=second),
        )
    if found.since and found.until and found.until - found.since > YEAR:
        middle = found.until - YEAR
        yield _offer(
            "The last year and what was before",
            replace(plain, until=middle),
            replace(plain, since=middle + dt.timedelta(days=1)),
        )


def _offer(said: str, first: Asked, second: Asked) -> Offer:
    address = reverse("trends:compare", args=[first.product, first.characteristic])
    return Offer(said, address + asking.compare_query(first, second))
