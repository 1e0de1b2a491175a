"""The strokes that every ruler shares: base line, ticks, cone, dots, labels. Classes only; the sheet gives the ink."""

from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby
from math import ceil

from lims.drawing.geometry import LEFT, LENGTH, RIGHT, coordinate

BASE = 18.5
DOT_STEP = 4.4
CONE = (
    *((-1.6, -18.0), (1.6, -18.0), (1.6, -14.0), (6.0, -14.0), (2.0, -7.5)),
    *((0.0, 0.0), (-2.0, -7.5), (-6.0, -14.0), (-1.6, -14.0)),
)


def drawing(
    title: str, parts: Iterable[str], *, about: str = "", height: int = 48
) -> str:
    """A ruler as one picture, told in words to those who do not see it."""
    width = LENGTH + 2 * LEFT
    told = f"<desc>{escape(about)}</desc>" if about else ""
    return (
        f'<svg class="bar" width="{width}" height="{height}" viewBox="0 0 {width} {height}" role="img">'
        f"<title>{escape(title)}</title>{told}{''.join(parts)}</svg>"
    )


def cone(x: float, tip: float, *states: str, size: int = 18) -> str:
    """The cone with its tip at the value: ``out`` not met, ``other`` another batch, ``run`` the clock."""
    scale = size / 18
    points = "L".join(
        f"{coordinate(x + dx * scale)} {coordinate(tip + dy * scale)}"
        for dx, dy in CONE
    )
    return f'<path class="{" ".join(["cone", *states])}" d="M{points}z"/>'


def zone(start: float, end: float, base: float = BASE, height: int = 6) -> str:
    """The allowed strip, lying on the base line."""
    return _strip("zone", start, end, base, height)


def track_done(end: float, base: float = BASE) -> str:
    """How much of a running test is done."""
    return _strip("done", LEFT, end, base, 6)


def _strip(kind: str, start: float, end: float, base: float, height: int) -> str:
    width = max(end - start, 0)
    return (
        f'<rect class="{kind}" x="{coordinate(start)}" y="{coordinate(base - height - 0.5)}" '
        f'width="{coordinate(width)}" height="{height}"/>'
    )


def hatched(start: float, end: float, base: float = BASE, height: int = 6) -> str:
    """Inside the limits, outside the internal band: still met, hatched."""
    if end - start <= 0:
        return ""
    bottom = base - 0.5
    strokes = []
    place = start - height
    while place < end:
        a, b = max(place, start), min(place + height, end)
        if b > a:
            low, high = bottom - (a - place), bottom - (b - place)
            strokes.append(
                f"M{coordinate(a)} {coordinate(low)}L{coordinate(b)} {coordinate(high)}"
            )
        place += 5
    ground = _strip("guard", start, end, base, height)
    return f'{ground}<path class="hatch" d="{"".join(strokes)}"/>'


def edge(x: float, base: float = BASE) -> str:
    """The dotted edge of a band within the limits."""
    return f'<path class="guard-edge" d="M{coordinate(x)} {coordinate(base - 12)}V{coordinate(base + 5)}"/>'


def limit_line(x: float, base: float = BASE, below: int = 11) -> str:
    """A limit: a strong line through the ruler."""
    return f'<path class="limit" d="M{coordinate(x)} {coordinate(base - 12)}v{12 + below}"/>'


def label(
    x: float, text: str, *, anchor: str = "middle", strong: bool = False, y: int = 45
) -> str:
    """A figure or a word beneath the ruler."""
    kind = ' class="strong"' if strong else ""
    return f'<text{kind} x="{coordinate(x)}" y="{y}" text-anchor="{anchor}">{escape(text)}</text>'


def ruled(short: Sequence[float], long: Sequence[float], base: float = BASE) -> str:
    """The ticks and the base line."""
    return (
        _ticks("minor", short, base, "3.5")
        + _ticks("major", long, base, "6")
        + f'<path class="base" d="M{LEFT} {coordinate(base)}H{RIGHT}"/>'
    )


def _ticks(kind: str, places: Sequence[float], base: float, length: str) -> str:
    if not places:
        return ""
    strokes = "".join(f"M{coordinate(x)} {coordinate(base)}v{length}" for x in places)
    return f'<path class="{kind}" d="{strokes}"/>'


def reading(x: float, base: float = BASE, *states: str) -> str:
    """One reading of a set: an upright line, dotted when it is set ``aside``."""
    kind = " ".join(["drop", *states])
    return (
        f'<path class="{kind}" d="M{coordinate(x)} {coordinate(base - 14)}'
        f'V{coordinate(base)}"/>'
    )


def circle(kind: str, x: float, y: float, radius: float) -> str:
    """A dot whose class says what it stands for."""
    return f'<circle class="{kind}" cx="{coordinate(x)}" cy="{coordinate(y)}" r="{radius}"/>'


def dot(x: float, y: float, radius: float = 1.9) -> str:
    """One earlier lot."""
    return circle("past", x, y, radius)


def dots(places: Sequence[float], top: float) -> str:
    """Earlier lots beneath the ruler: a dot that would touch another stands one step lower."""
    drawn: list[str] = []
    rows: list[float] = []
    for x, same in groupby(sorted(places)):
        count = len(list(same))
        if count > 3:
            drawn.extend(_block(x, count, top))
            continue
        for _ in range(count):
            row = _free_row(rows, x)
            drawn.append(dot(x, top + row * DOT_STEP))
    return "".join(drawn)


def _free_row(rows: list[float], x: float) -> int:
    for row, last in enumerate(rows):
        if x - last >= DOT_STEP:
            rows[row] = x
            return row
    rows.append(x)
    return len(rows) - 1


# Many equal values would run down as one column: they stand as a block three high.
def _block(x: float, count: int, top: float) -> list[str]:
    half = (ceil(count / 3) - 1) / 2
    return [
        dot(x + (n // 3 - half) * DOT_STEP, top + n % 3 * DOT_STEP)
        for n in range(count)
    ]


def break_before(x: float, base: float = BASE) -> str:
    """Two strokes that break the ruler before a cone that stands off the scale."""
    a = x - 17 if x >= RIGHT else x + 9
    return (
        f'<path class="cut" d="M{coordinate(a + 2)} {coordinate(base)}h4"/>'
        f'<path class="base" d="M{coordinate(a)} {coordinate(base + 5)}l4 -10m0 10l4 -10"/>'
    )


def lies(x: float, sign: str, base: float = BASE) -> str:
    """The arrow that says on which side of the figure the true value lies."""
    way = 1 if sign == ">" else -1
    return (
        f'<path class="lies" d="M{coordinate(x + way * 7)} {coordinate(base - 9)}'
        f'h{way * 20}m{-way * 5} -4.5l{way * 5} 4.5l{-way * 5} 4.5"/>'
    )
