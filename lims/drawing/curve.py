"""A vessel's pressure against hours, drawn downwards as the gauge moves."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from math import ceil

from lims.drawing import ink
from lims.drawing.geometry import Plain, coordinate, number

WIDTH, HEIGHT = 360, 232
LEFT, RIGHT, TOP, BOTTOM = 30, 316, 24, 202
FALL_STEP, HOUR_STEP, DAY = 10, 4, 24
HEAD_ROOM = 20
Point = tuple[Plain, Plain]


@dataclass(frozen=True)
class Vessel:
    """One vessel: its logged line, the readings taken by eye, its name at the end."""

    name: str
    line: Sequence[Point]
    readings: Sequence[Point] = ()


@dataclass(frozen=True)
class Frame:
    """The two axes: hours to the right, fall of pressure downwards."""

    hours: int
    depth: int

    def x(self, hour: Plain) -> float:
        return LEFT + (RIGHT - LEFT) * float(number(hour)) / self.hours

    def y(self, fall: Plain) -> float:
        return TOP + (BOTTOM - TOP) * float(number(fall)) / self.depth


def curve(
    *,
    title: str,
    about: str,
    hours: int,
    vessels: Sequence[Vessel],
    limit: Plain | None = None,
    unit: str = "kPa",
    last: Sequence[Plain] = (),
    now: Plain | None = None,
    to_come: Sequence[Plain] = (),
) -> str:
    """The fall of pressure of each vessel, the limit, and where the last lots ended.

    ``about`` tells the picture in words. ``to_come`` are the hours of readings still due.
    """
    frame = Frame(hours, _depth(limit, vessels, last))
    parts = [
        _ground(frame, limit),
        _axes(frame, unit),
        _limit(frame, limit),
        _ends(frame, tuple(last)[-10:]),
        _present(frame, now),
        *_lines(frame, vessels),
        *(ink.circle("slot", frame.x(hour), BOTTOM, 3.4) for hour in to_come),
    ]
    return (
        f'<svg class="curve" width="{WIDTH}" height="{HEIGHT}" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(title)}</title><desc>{escape(about)}</desc>{''.join(parts)}</svg>"
    )


def _depth(
    limit: Plain | None, vessels: Sequence[Vessel], last: Sequence[Plain]
) -> int:
    falls = [number(fall) for it in vessels for _, fall in (*it.line, *it.readings)]
    falls += [number(it) for it in last]
    if limit is not None:
        falls.append(number(limit) + HEAD_ROOM)
    deepest = max(falls, default=number(HEAD_ROOM))
    return max(HEAD_ROOM, ceil(deepest / FALL_STEP) * FALL_STEP)


def _ground(frame: Frame, limit: Plain | None) -> str:
    if limit is None:
        return ""
    height = coordinate(frame.y(limit) - TOP)
    return f'<rect class="zone" x="{LEFT}" y="{TOP}" width="{RIGHT - LEFT}" height="{height}"/>'


def _axes(frame: Frame, unit: str) -> str:
    drawn = [_fall_tick(frame, fall) for fall in range(0, frame.depth + 1, FALL_STEP)]
    drawn += [_hour_tick(frame, hour) for hour in range(0, frame.hours + 1, HOUR_STEP)]
    drawn += [_hour_label(frame, hour) for hour in _labelled(frame.hours)]
    drawn.append(ink.label(0, f"{unit} below the maximum", anchor="start", y=10))
    drawn.append(f'<path class="base" d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}"/>')
    return "".join(drawn)


def _fall_tick(frame: Frame, fall: int) -> str:
    long = not fall % (2 * FALL_STEP)
    y = coordinate(frame.y(fall))
    tick = f'<path class="{"base" if long else "minor"}" d="M{LEFT} {y}h{-6 if long else -4}"/>'
    words = f'<text x="{LEFT - 10}" y="{coordinate(frame.y(fall) + 4)}" text-anchor="end">{fall}</text>'
    return tick + words if long else tick


def _hour_tick(frame: Frame, hour: int) -> str:
    long = not hour % DAY or hour == frame.hours
    x = coordinate(frame.x(hour))
    return f'<path class="{"base" if long else "minor"}" d="M{x} {BOTTOM}v{7 if long else 4}"/>'


def _labelled(hours: int) -> list[int]:
    days = [hour for hour in range(0, hours, DAY) if hours - hour > DAY // 2]
    return [*days, hours]


def _hour_label(frame: Frame, hour: int) -> str:
    words = f"{hour} h" if hour == frame.hours else str(hour)
    return ink.label(frame.x(hour), words, y=BOTTOM + 21)


def _limit(frame: Frame, limit: Plain | None) -> str:
    if limit is None:
        return ""
    y = frame.y(limit)
    words = ink.label(
        RIGHT + 5, str(limit), anchor="start", strong=True, y=round(y + 4)
    )
    return f'<path class="limit" d="M{LEFT} {coordinate(y)}H{RIGHT}"/>{words}'


def _ends(frame: Frame, last: Sequence[Plain]) -> str:
    columns: list[float] = []
    drawn = []
    for y in sorted(frame.y(fall) for fall in last):
        column = next(
            (n for n, low in enumerate(columns) if y - low >= ink.DOT_STEP),
            len(columns),
        )
        columns[column : column + 1] = [y]
        drawn.append(ink.dot(RIGHT + 4 + column * ink.DOT_STEP, y))
    return "".join(drawn)


def _present(frame: Frame, now: Plain | None) -> str:
    if now is None:
        return ""
    return f'<path class="now" d="M{coordinate(frame.x(now))} {TOP}V{BOTTOM}"/>'


def _lines(frame: Frame, vessels: Sequence[Vessel]) -> list[str]:
    ends = sorted(
        (frame.y(it.line[-1][1]), n) for n, it in enumerate(vessels) if it.line
    )
    # names at the ends of two lines stand above and below, so that they never meet
    below = {
        n: 13 if place == len(ends) - 1 else -5 for place, (_, n) in enumerate(ends)
    }
    return [
        _line(frame, it, " b" if n else "", below.get(n, 0))
        for n, it in enumerate(vessels)
    ]


def _line(frame: Frame, vessel: Vessel, kind: str, name_by: int) -> str:
    points = " ".join(
        f"{coordinate(frame.x(hour))},{coordinate(frame.y(fall))}"
        for hour, fall in vessel.line
    )
    drawn = f'<polyline class="line{kind}" points="{points}"/>' if points else ""
    drawn += "".join(
        ink.circle(f"pt{kind}", frame.x(hour), frame.y(fall), 3.2)
        for hour, fall in vessel.readings
    )
    if vessel.line:
        hour, fall = vessel.line[-1]
        place = round(frame.y(fall) + name_by)
        drawn += ink.label(
            frame.x(hour) + 6, vessel.name, anchor="start", strong=True, y=place
        )
    return drawn
