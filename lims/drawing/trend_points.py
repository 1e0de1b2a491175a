"""The points of a chart: a shape for each source, hollow where nobody here verified the value, and an arrow where only a bound is known."""

from collections.abc import Callable, Iterator
from html import escape

from lims.drawing.geometry import beyond, coordinate
from lims.drawing.trend_scales import Frame
from lims.people.queries import site_zone
from lims.trends.asked import Point, Series, Source, Trend
from lims.wording.dates import day
from lims.wording.numbers import with_unit

Address = Callable[[Point], str]

MARK, A_LETTER, A_ROW = 14, 6.3, 20  # of the key
BETWEEN, BELOW = 20, 12
MOST_LINKS = 5000  # points that lead somewhere; a chart of more says so
ARROW = 13  # how far the true value's side is pointed out
NAMES = {
    Source.RELEASED: "released",
    Source.NOT_RELEASED: "not released",
    Source.FIRST_VALUE: "first value of the batch",
    Source.HISTORY: "unverified history",
}
KINDS = {
    Source.RELEASED: "pt released",
    Source.NOT_RELEASED: "pt not-released",
    Source.FIRST_VALUE: "pt first-value",
    Source.HISTORY: "pt history",
}


def shape(source: Source, x: float, y: float) -> str:
    """Disc, diamond, square; a ring for history."""
    kind, at = KINDS[source], (coordinate(x), coordinate(y))
    if source == Source.NOT_RELEASED:
        return f'<path class="{kind}" d="M{at[0]} {coordinate(y - 4.6)}l4.6 4.6l-4.6 4.6l-4.6 -4.6z"/>'
    if source == Source.FIRST_VALUE:
        left, top = coordinate(x - 3.2), coordinate(y - 3.2)
        return f'<rect class="{kind}" x="{left}" y="{top}" width="6.4" height="6.4"/>'
    radius = "3" if source == Source.HISTORY else "3.4"
    return f'<circle class="{kind}" cx="{at[0]}" cy="{at[1]}" r="{radius}"/>'


def points(trend: Trend, frame: Frame, address: Address | None) -> str:
    """Every point that has a place; of very many only dots, which lead nowhere."""
    if len(trend.points) > MOST_LINKS:
        return "".join(dots(it, frame) for it in history_first(trend))
    drawn = "".join(
        mark
        for it in history_first(trend)
        for mark in _of_series(it.points, trend, frame, address)
    )
    # the table beneath has the same links, one a row, for the keyboard and for readers
    return f'<g class="points" aria-hidden="true">{drawn}</g>'


def history_first(trend: Trend) -> list[Series]:
    """The series in the order of drawing: what was measured here lies on top."""
    return sorted(trend.series, key=lambda it: it.source != Source.HISTORY)


def dots(series: Series, frame: Frame) -> str:
    """The points of a series as one stroke, each place once; history the finer ones."""
    found = (
        (frame.x(frame.across.of(it)), frame.upright.of(it.value))
        for it in series.points
    )
    places = dict.fromkeys(
        f"M{coordinate(x)} {coordinate(frame.y(value))}h.01"
        for x, value in found
        if value is not None
    )
    kind = KINDS[series.source].removeprefix("pt ")
    width = "2.2" if series.source == Source.HISTORY else "3.4"
    return (
        f'<path class="dots {kind}" stroke-linecap="round" stroke-width="{width}" '
        f'd="{"".join(places)}"/>'
    )


def _of_series(
    found: tuple[Point, ...], trend: Trend, frame: Frame, address: Address | None
) -> Iterator[str]:
    of, zone = trend.characteristic, site_zone()
    for point in found:
        value = frame.upright.of(point.value)
        if value is None:
            continue
        x, y = frame.x(frame.across.of(point)), frame.y(value)
        drawn = shape(point.source, x, y) + _lies(point.value, x, y)
        name = point.lot or point.batch
        told = f"{name}, {day(point.at, zone)}: {with_unit(point.said, of.unit, signed=of.is_signed)}, {NAMES[point.source]}"
        titled = f"<title>{escape(told)}</title>{drawn}"
        if address is None:
            yield f"<g>{titled}</g>"
        else:
            yield f'<a href="{escape(address(point))}" tabindex="-1">{titled}</a>'


def _lies(value: str, x: float, y: float) -> str:
    """The arrow to the side on which the true value lies."""
    sign = beyond(value)
    if not sign:
        return ""
    way = -1 if sign == ">" else 1
    return (
        f'<path class="lies" d="M{coordinate(x)} {coordinate(y + way * 4)}v{way * ARROW}'
        f'm-3.5 {-way * 4}l3.5 {way * 4}l3.5 {-way * 4}"/>'
    )


def key(trend: Trend, ends: tuple[float, float], y: float) -> tuple[str, int]:
    """Which shape stands for what, with how many of each; and how far down it reaches."""
    drawn, x = [], ends[0]
    for it in trend.series:
        words = f"{NAMES[it.source]}, {len(it.points)}"
        length = MARK + A_LETTER * len(words)
        if x > ends[0] and x + length > ends[1]:
            x, y = ends[0], y + A_ROW
        drawn.append(
            f'{shape(it.source, x + 4, y - 4)}<text x="{coordinate(x + MARK)}" '
            f'y="{coordinate(y)}">{escape(words)}</text>'
        )
        x += length + BETWEEN
    return f'<g class="key">{"".join(drawn)}</g>', round(y) + BELOW
