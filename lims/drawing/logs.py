"""A signal over time as a logger's file told it: hours or minutes to the right, the value upwards."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import pairwise
from math import ceil, floor, log10
from statistics import median_low

from lims.drawing import ink
from lims.drawing.geometry import coordinate
from lims.drawing.onset import thinned

WIDTH, HEIGHT = 760, 300
LEFT, RIGHT, TOP, BOTTOM = 56, 744, 28, 252
STEPS = (1.0, 2.0, 5.0, 10.0)
LONG = 180  # minutes; what lasts longer is told in hours
ROOM = 0.06  # of the range of values, above and below
MOST_POINTS = 1200
GAP_FACTOR = 10  # times the usual interval; common practice, no source
Points = Sequence[tuple[float, float]]  # minutes, value


@dataclass(frozen=True)
class Frame:
    """The two axes; `per` is how many minutes one step of the time axis counts."""

    last: float
    low: float
    high: float
    per: int

    def x(self, minute: float) -> float:
        return LEFT + (RIGHT - LEFT) * minute / self.last

    def y(self, value: float) -> float:
        return BOTTOM - (BOTTOM - TOP) * (value - self.low) / (self.high - self.low)


def logged(*, title: str, about: str, points: Points, unit: str) -> str:
    """The whole signal; of each stretch the lowest and the highest reading are drawn, so that no peak is lost.

    The line is broken where readings are missing. Minutes count from the first reading. Raises ValueError for fewer than two points or
    no length of time.
    """
    frame = _frame(points)
    most = MOST_POINTS / len(points)
    parts = [_time(frame), _values(frame, unit)]
    parts += [
        _line(frame, thinned(it, max(4, int(len(it) * most))))
        for it in stretches(points)
    ]
    return (
        f'<svg class="curve" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(title)}</title><desc>{escape(about)}</desc>{''.join(parts)}</svg>"
    )


def stretches(points: Points) -> list[Points]:
    """The readings in pieces without a gap: one far longer than usual parts them."""
    steps = [later - earlier for (earlier, _), (later, _) in pairwise(points)]
    longest = GAP_FACTOR * median_low(steps)
    cuts = [place for place, step in enumerate(steps, 1) if step > longest > 0]
    return [points[begins:ends] for begins, ends in pairwise([0, *cuts, len(points)])]


def _line(frame: Frame, points: Points) -> str:
    """A piece of the signal; a reading alone is a short dash."""
    places = [(frame.x(minute), frame.y(value)) for minute, value in points]
    if len(places) == 1:
        ((x, y),) = places
        places = [(x - 1, y), (x + 1, y)]
    line = " ".join(f"{coordinate(x)},{coordinate(y)}" for x, y in places)
    return f'<polyline class="line" points="{line}"/>'


def _frame(points: Points) -> Frame:
    if len(points) < 2 or points[-1][0] <= 0:
        raise ValueError("A log has two points or more, at different times.")
    values = [value for _, value in points]
    low, high = min(values), max(values)
    room = (high - low) * ROOM or 1.0
    last = points[-1][0]
    return Frame(last, low - room, high + room, 60 if last > LONG else 1)


def _time(frame: Frame) -> str:
    drawn = [f'<path class="base" d="M{LEFT} {BOTTOM}H{RIGHT}"/>']
    for at in _round(0, frame.last / frame.per, 8):
        x = frame.x(at * frame.per)
        drawn.append(f'<path class="base" d="M{coordinate(x)} {BOTTOM}v6"/>')
        drawn.append(ink.label(x, f"{at:g}", y=BOTTOM + 20))
    words = "hours" if frame.per > 1 else "minutes"
    drawn.append(ink.label(RIGHT, words, anchor="end", y=BOTTOM + 40))
    return "".join(drawn)


def _values(frame: Frame, unit: str) -> str:
    drawn = [f'<path class="base" d="M{LEFT} {TOP}V{BOTTOM}"/>']
    for value in _round(frame.low, frame.high, 5):
        y = coordinate(frame.y(value))
        drawn.append(f'<path class="gridline" d="M{LEFT} {y}H{RIGHT}"/>')
        drawn.append(f'<path class="base" d="M{LEFT} {y}h-6"/>')
        place = round(frame.y(value) + 4)
        drawn.append(ink.label(LEFT - 10, f"{value:g}", anchor="end", y=place))
    drawn.append(ink.label(0, unit, anchor="start", y=12))
    return "".join(drawn)


def _round(low: float, high: float, about: int) -> Iterator[float]:
    """Round numbers between two ends, about so many."""
    least = (high - low) / about
    power = 10.0 ** floor(log10(least))
    step = next(it * power for it in STEPS if it * power >= least * (1 - 1e-9))
    for count in range(ceil(low / step), floor(high / step) + 1):
        yield round(count * step, 10)
