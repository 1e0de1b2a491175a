"""Where a value stands on a ruler: 300 units long, the limits always at the same two places."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from lims.wording.numbers import NUMBER

Plain = Decimal | int | float | str

LEFT, LENGTH = 2, 300
RIGHT = LEFT + LENGTH
LOW, HIGH = 62, 242  # the two limits: 20 % and 80 % of the ruler
BETWEEN = HIGH - LOW
CLOSEST_TICKS = 4.4
STEPS = (Decimal(1), Decimal(2), Decimal(5), Decimal(10))
SPANS = (Decimal(1), Decimal(2), Decimal("2.5"), Decimal(5), Decimal(10))


@dataclass(frozen=True)
class Scale:
    """A ruler: the value ``zero`` stands at ``at``, one unit is ``per_unit`` long."""

    zero: Decimal
    at: Decimal
    per_unit: Decimal

    def x(self, value: Plain) -> float:
        """The place of a value, which may lie beyond the ruler's ends."""
        return float(self.at + (number(value) - self.zero) * self.per_unit)

    def value_at(self, x: int) -> Decimal:
        return self.zero + (x - self.at) / self.per_unit


def number(value: Plain) -> Decimal:
    """The figure of a value, without the sign that says the true value lies beyond it."""
    found = NUMBER.fullmatch(str(value).strip())
    if found is None:
        return Decimal(str(value))
    _, sign, figures = found.groups()
    figure = Decimal(figures.replace(",", "."))
    return -figure if sign in {"-", "−"} else figure


def beyond(value: Plain | None) -> str:
    """``>`` or ``<`` when only a bound of the value is known, else nothing."""
    first = str(value).strip()[:1] if value is not None else ""
    return {"≥": ">", "≤": "<"}.get(first, first if first in {"<", ">"} else "")


def scale(
    lower: Plain | None,
    upper: Plain | None,
    *,
    signed: bool = False,
    span: Plain | None = None,
) -> Scale:
    """The ruler of a requirement.

    Two limits stand at 20 % and 80 %. An upper limit alone stands at 80 %, zero at the
    left end, or at 20 % where the value is a signed change. A lower limit alone stands
    at 20 %, and ``span`` says how many units lie between 20 % and 80 %.
    """
    if lower is None and upper is None:
        raise ValueError("A ruler of limits needs a limit.")
    if upper is None:
        return _from(number(lower or 0), LOW, BETWEEN, _span(lower or 0, span))
    if lower is not None and number(upper) > number(lower):
        return _from(number(lower), LOW, BETWEEN, number(upper) - number(lower))
    if lower is None and number(upper) > 0:
        at = LOW if signed else LEFT
        return _from(Decimal(0), at, HIGH - at, number(upper))
    return _from(number(upper), HIGH, BETWEEN, _span(upper, span))


def _from(zero: Decimal, at: int, length: int, units: Decimal) -> Scale:
    return Scale(zero, Decimal(at), Decimal(length) / units)


def _span(limit: Plain, span: Plain | None) -> Decimal:
    if span is not None and number(span) > 0:
        return number(span)
    fifth = abs(number(limit)) / 5
    return _rounded_up(fifth, SPANS) if fifth else Decimal(1)


def _rounded_up(least: Decimal, steps: tuple[Decimal, ...]) -> Decimal:
    power = Decimal(10) ** least.adjusted()
    return next(step * power for step in steps if step * power >= least)


def tick_step(units: Decimal) -> Decimal:
    """The smallest of 1, 2, 5 times a power of ten whose ticks stand 4.4 apart or more."""
    return _rounded_up(units * Decimal(str(CLOSEST_TICKS)) / LENGTH, STEPS)


def ticks(ruler: Scale) -> tuple[list[float], list[float]]:
    """The places of the short and of the long ticks; every fifth is long."""
    start, end = ruler.value_at(LEFT), ruler.value_at(RIGHT)
    step = tick_step(end - start)
    short: list[float] = []
    long: list[float] = []
    for count in range(_first(start / step), _last(end / step) + 1):
        place = round(ruler.x(count * step) * 2) / 2
        (short if count % 5 else long).append(place)
    return short, long


# A division such as 180/30 may end in ...999: a tick at the very end still counts.
def _first(steps: Decimal) -> int:
    return math.ceil(steps - Decimal("1e-9"))


def _last(steps: Decimal) -> int:
    return math.floor(steps + Decimal("1e-9"))


def evenly(total: Plain, step: Plain, x: Callable[[Decimal], float]) -> list[float]:
    """The places of every multiple of a step from nothing to the total."""
    number_of_steps = _last(number(total) / number(step))
    return [x(number(step) * count) for count in range(number_of_steps + 1)]


def coordinate(value: float) -> str:
    """A place with one decimal, without a trailing nought."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text
