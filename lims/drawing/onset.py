"""A trace of heat flow against minutes, with the base line and the tangent whose crossing is the onset."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from math import ceil, floor, log10

from lims.drawing import ink
from lims.drawing.geometry import coordinate

WIDTH, HEIGHT = 520, 260
LEFT, RIGHT, TOP, BOTTOM = 12, 508, 26, 214
MOST_POINTS = 500
ROOM = 0.06  # of the signal's range, above and below it
STEPS = (1.0, 2.0, 5.0, 10.0)


@dataclass(frozen=True)
class Straight:
    """A straight line: signal = intercept + slope × minutes."""

    slope: float
    intercept: float

    def at(self, minute: float) -> float:
        return self.intercept + self.slope * minute


@dataclass(frozen=True)
class Frame:
    """The two axes: minutes to the right, heat given off upwards."""

    minutes: tuple[float, float]
    signals: tuple[float, float]

    def x(self, minute: float) -> float:
        first, last = self.minutes
        return LEFT + (RIGHT - LEFT) * (minute - first) / (last - first)

    def y(self, signal: float) -> float:
        low, high = self.signals
        return BOTTOM - (BOTTOM - TOP) * (signal - low) / (high - low)


def onset(
    *,
    title: str,
    about: str,
    points: Sequence[tuple[float, float]],
    admitted: float = 0.0,
    base: Straight | None = None,
    between: tuple[float, float] | None = None,
    tangent: Straight | None = None,
    crossing: float | None = None,
    words: str = "",
) -> str:
    """The trace; the base line over where it was fitted and on, the tangent, and their crossing.

    Minutes are those of the trace; ``admitted`` is when oxygen was let in. ``words`` stand at the crossing.
    """
    frame = _frame(points)
    parts = [_axes(frame), _admitted(frame, admitted), _signal(frame, points)]
    if base is not None and between is not None:
        parts.append(_base(frame, base, between, crossing))
    if tangent is not None:
        parts.append(_tangent(frame, tangent))
    if base is not None and crossing is not None:
        parts.append(_crossing(frame, base.at(crossing), crossing, words))
    return (
        f'<svg class="curve onset" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(title)}</title><desc>{escape(about)}</desc>{''.join(parts)}</svg>"
    )


def _frame(points: Sequence[tuple[float, float]]) -> Frame:
    if len(points) < 2:
        raise ValueError("A trace has two points or more.")
    signals = [signal for _, signal in points]
    low, high = min(signals), max(signals)
    room = (high - low) * ROOM or 1.0
    return Frame((points[0][0], points[-1][0]), (low - room, high + room))


def thinned(
    points: Sequence[tuple[float, float]], most: int = MOST_POINTS
) -> list[tuple[float, float]]:
    """At most so many points; of each stretch the lowest and the highest stay, so that no peak is lost."""
    if len(points) <= most:
        return list(points)
    length = ceil(len(points) / (most // 2))
    kept: list[tuple[float, float]] = []
    for start in range(0, len(points), length):
        stretch = points[start : start + length]
        ends = {min(stretch, key=_signal_of), max(stretch, key=_signal_of)}
        kept += sorted(ends)
    return kept


def _signal_of(point: tuple[float, float]) -> float:
    return point[1]


def _signal(frame: Frame, points: Sequence[tuple[float, float]]) -> str:
    drawn = " ".join(
        f"{coordinate(frame.x(minute))},{coordinate(frame.y(signal))}"
        for minute, signal in thinned(points)
    )
    return f'<polyline class="line" points="{drawn}"/>'


def _axes(frame: Frame) -> str:
    first, last = frame.minutes
    step = _step((last - first) / 8)
    drawn = [f'<path class="base" d="M{LEFT} {BOTTOM}H{RIGHT}"/>']
    for count in range(ceil(first / step), floor(last / step) + 1):
        minute = count * step
        x = frame.x(minute)
        drawn.append(f'<path class="base" d="M{coordinate(x)} {BOTTOM}v6"/>')
        anchor = "end" if x > RIGHT - 8 else "start" if x < LEFT + 8 else "middle"
        drawn.append(ink.label(x, f"{minute:g}", anchor=anchor, y=BOTTOM + 20))
    drawn.append(ink.label(RIGHT, "min of the curve", anchor="end", y=BOTTOM + 40))
    drawn.append(ink.label(LEFT, "heat given off", anchor="start", y=12))
    return "".join(drawn)


def _step(least: float) -> float:
    power = 10.0 ** floor(log10(least)) if least > 0 else 1.0
    return next(it * power for it in STEPS if it * power >= least)


def _admitted(frame: Frame, admitted: float) -> str:
    first, last = frame.minutes
    if not first <= admitted <= last:
        return ""
    x = frame.x(admitted)
    line = f'<path class="now" d="M{coordinate(x)} {TOP}V{BOTTOM}"/>'
    return line + ink.label(x + 4, "oxygen in", anchor="start", y=TOP + 8)


def _base(
    frame: Frame,
    base: Straight,
    between: tuple[float, float],
    crossing: float | None,
) -> str:
    """Solid where it was fitted, dashed from there to the crossing and a little further."""
    start, end = between
    fitted = _path(frame, base, start, end, "fitted")
    reach = (frame.minutes[1] - frame.minutes[0]) * 0.05
    far = min((crossing if crossing is not None else end) + reach, frame.minutes[1])
    return fitted + (_path(frame, base, end, far, "extended") if far > end else "")


def _tangent(frame: Frame, tangent: Straight) -> str:
    """The tangent from foot to head of the picture."""
    if not tangent.slope:
        return ""
    low, high = frame.signals
    ends = sorted((it - tangent.intercept) / tangent.slope for it in (low, high))
    start, end = max(ends[0], frame.minutes[0]), min(ends[1], frame.minutes[1])
    return _path(frame, tangent, start, end, "extended") if end > start else ""


def _path(frame: Frame, line: Straight, start: float, end: float, kind: str) -> str:
    a = f"{coordinate(frame.x(start))} {coordinate(frame.y(line.at(start)))}"
    b = f"{coordinate(frame.x(end))} {coordinate(frame.y(line.at(end)))}"
    return f'<path class="{kind}" d="M{a}L{b}"/>'


def _crossing(frame: Frame, signal: float, minute: float, words: str) -> str:
    x, y = frame.x(minute), frame.y(signal)
    mark = ink.circle("pt b", x, y, 4)
    left = x > (LEFT + RIGHT) / 2
    name = ink.label(
        x + (-8 if left else 8),
        words,
        anchor="end" if left else "start",
        strong=True,
        y=round(y - 8),
    )
    return mark + (name if words else "")
