"""Reference readings of an instrument over time: the assigned value, the warning and action lines, a point a reading.

Ink comes from the style sheet, by class: `curve`; `pt`, `pt b` beyond the action limit; `limit`, `now`, `base`, `gridline`; `strong`.
"""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from lims.drawing import ink
from lims.drawing.geometry import coordinate

WIDTH, HEIGHT = 760, 300
LEFT, RIGHT, TOP, BOTTOM = 56, 660, 24, 246
MOST_LABELS = 6


@dataclass(frozen=True)
class Point:
    """One reading: when, its mean, where it is told, and how it was found."""

    at: dt.datetime
    value: float
    address: str
    words: str
    is_beyond: bool


@dataclass(frozen=True)
class Lines:
    """The assigned value with its limits either way; none where there is no limit yet."""

    assigned: float
    warning: float | None
    action: float | None

    def told(self) -> list[tuple[float, str, str]]:
        """Each line with its class and its words, from below."""
        found = [(self.assigned, "base", "assigned")]
        for size, kind, words in (
            (self.warning, "now", "warning"),
            (self.action, "limit", "action"),
        ):
            if size is not None:
                found += [(self.assigned + s * size, kind, words) for s in (-1, 1)]
        return sorted(found)


@dataclass(frozen=True)
class _Frame:
    first: dt.datetime
    seconds: float
    low: float
    high: float

    def x(self, at: dt.datetime) -> float:
        if not self.seconds:
            return (LEFT + RIGHT) / 2
        inner = RIGHT - LEFT - 24
        return LEFT + 12 + inner * (at - self.first).total_seconds() / self.seconds

    def y(self, value: float) -> float:
        return BOTTOM - (BOTTOM - TOP) * (value - self.low) / (self.high - self.low)


def control_chart(
    *, title: str, points: Sequence[Point], lines: Lines, unit: str
) -> str:
    """The chart as SVG; nothing without points, which come in the order of time. The table beneath it tells the same."""
    if not points:
        return ""
    frame = _frame(points, lines)
    parts = [_limits(frame, lines), _axes(frame, points, unit), _points(frame, points)]
    beyond = sum(it.is_beyond for it in points)
    about = f"{len(points)} readings, {beyond} beyond the action limit. The table beneath has every reading."
    return (
        f'<svg class="curve" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" role="group">'
        f"<title>{escape(title)}</title><desc>{escape(about)}</desc>{''.join(parts)}</svg>"
    )


def _frame(points: Sequence[Point], lines: Lines) -> _Frame:
    values = [it.value for it in points] + [value for value, _, _ in lines.told()]
    low, high = min(values), max(values)
    room = (high - low) * 0.08 or 1.0
    first, last = points[0].at, points[-1].at
    return _Frame(first, (last - first).total_seconds(), low - room, high + room)


def _limits(frame: _Frame, lines: Lines) -> str:
    drawn = []
    for value, kind, words in lines.told():
        y = frame.y(value)
        drawn.append(f'<path class="{kind}" d="M{LEFT} {coordinate(y)}H{RIGHT}"/>')
        told = f"{words} {value:.1f}"
        drawn.append(ink.label(RIGHT + 8, told, anchor="start", y=round(y + 4)))
    return "".join(drawn)


def _axes(frame: _Frame, points: Sequence[Point], unit: str) -> str:
    drawn = [f'<path class="base" d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}"/>']
    every = max(1, -(-len(points) // MOST_LABELS))
    last_x = -100.0
    for it in points[::every]:
        x = frame.x(it.at)
        if x - last_x > 76:
            drawn.append(ink.label(x, it.at.date().isoformat(), y=BOTTOM + 22))
            last_x = x
    for value in (min(it.value for it in points), max(it.value for it in points)):
        place = round(frame.y(value) + 4)
        drawn.append(ink.label(LEFT - 8, f"{value:.1f}", anchor="end", y=place))
    drawn.append(ink.label(0, unit, anchor="start", y=12))
    return "".join(drawn)


def _points(frame: _Frame, points: Sequence[Point]) -> str:
    return "".join(
        f'<a href="{escape(it.address)}" aria-label="{escape(it.words)}"><circle class="pt{" b" * it.is_beyond}" '
        f'cx="{coordinate(frame.x(it.at))}" cy="{coordinate(frame.y(it.value))}" r="{6 if it.is_beyond else 4}">'
        f"<title>{escape(it.words)}</title></circle></a>"
        for it in points
    )
