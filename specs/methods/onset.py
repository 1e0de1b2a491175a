"""The extrapolated onset of a curve: where its baseline and its steepest tangent cross.

The construction of ASTM D5483 (D3895 and E1858 have the same). The baseline is the
straight line of least squares through the points between two stated times. After it is
subtracted, the tangent is the straight line of least squares through those five points in
a row, later than the baseline, that rise most steeply. Times are in minutes; the onset is
kept to 0.000001 min. A tangent over five points draws the onset a little early: for a
logistic rise of time constant τ, sampled every τ/10, by 0.0056 τ. On a dense and noisy
curve five points follow the noise, which is one reason why a person looks at the lines.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING

from specs.judging.rounding import round_to_step
from specs.methods.traces import Points
from specs.numbers import Refused

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

KEPT = Decimal("0.000001")
FIVE = 5
# A rise is told from the scatter of the baseline when it is five times as high, and from
# the rounding of the arithmetic when it is a thousand-millionth of the signal; house figures.
CLEAR, LEAST = 5, 1e-9


class OnsetRefused(Refused):
    """A curve or a baseline from which no onset follows."""


@dataclass(frozen=True)
class Line:
    """A straight line: signal = slope × minutes + intercept."""

    slope: float
    intercept: float

    def at(self, minutes: float) -> float:
        """The signal on the line at a time."""
        return self.slope * minutes + self.intercept


@dataclass(frozen=True)
class Onset:
    """The onset in minutes of the curve, with all that is needed to draw it."""

    minutes: Decimal
    baseline: Line
    tangent: Line
    five: Points


def onset(
    points: Sequence[tuple[Decimal, Decimal]],
    baseline: tuple[Decimal, Decimal],
    *,
    falls: bool = False,
) -> Onset:
    """The onset of a curve of (minutes, signal) above its baseline (from, to) in minutes.

    `falls` is for a curve whose exotherm points down. Raises OnsetRefused where the times
    do not rise, the baseline is not one, or nothing rises clearly after it.
    """
    # Imported late, as below: it takes time, and few processes ever see a curve.
    import numpy as np

    _check_times(points)
    begin, end = baseline
    _check_baseline(points, begin, end)
    times = np.array([float(time) for time, _ in points])
    signal = np.array([float(height) for _, height in points])
    upward = -signal if falls else signal
    is_base = np.array([begin <= time <= end for time, _ in points])
    base = _line(times[is_base], upward[is_base])
    net = upward - (base.slope * times + base.intercept)
    first = sum(time <= end for time, _ in points)
    _check_rise(net, upward, is_base, first, end)
    steepest = first + _steepest(times[first:], net[first:])
    five = slice(steepest, steepest + FIVE)
    rise = _line(times[five], net[five])
    _check_slope(rise, points[five])
    minutes = round_to_step(Decimal(-rise.intercept / rise.slope), KEPT)
    _check_crossing(minutes, baseline, points[five])
    turned = -1 if falls else 1
    return Onset(
        minutes=minutes,
        baseline=Line(turned * base.slope, turned * base.intercept),
        tangent=Line(
            turned * (base.slope + rise.slope),
            turned * (base.intercept + rise.intercept),
        ),
        five=tuple(points[five]),
    )


def _line(times: "Floats", heights: "Floats") -> Line:
    """The line of least squares, computed about the middle of its points."""
    middle, height = float(times.mean()), float(heights.mean())
    away = times - middle
    slope = float((away * (heights - height)).sum() / (away * away).sum())
    return Line(slope, height - slope * middle)


def _steepest(times: "Floats", net: "Floats") -> int:
    """Where the five points in a row begin whose line is the steepest; of equals the first."""
    from numpy.lib.stride_tricks import sliding_window_view

    t, y = sliding_window_view(times, FIVE), sliding_window_view(net, FIVE)
    away = t - t.mean(axis=1, keepdims=True)
    slopes = (away * (y - y.mean(axis=1, keepdims=True))).sum(axis=1)
    slopes /= (away * away).sum(axis=1)
    return int((slopes >= slopes.max() * (1 - LEAST)).argmax())


def _check_times(points: Sequence[tuple[Decimal, Decimal]]) -> None:
    if len(points) < FIVE + 2:
        raise OnsetRefused(
            f"The curve has {len(points)} points: an onset needs 2 for the baseline and "
            f"{FIVE} after it. Read the whole curve in."
        )
    for (before, _), (after, _) in pairwise(points):
        if after <= before:
            raise OnsetRefused(
                f"The time {after:f} min does not come after {before:f} min: "
                "the times of a curve rise."
            )
        if float(after) <= float(before):
            raise OnsetRefused(
                f"The times {before:f} and {after:f} min cannot be told apart: "
                "write the curve in minutes from its own beginning."
            )


def _check_baseline(
    points: Sequence[tuple[Decimal, Decimal]], begin: Decimal, end: Decimal
) -> None:
    first, last = points[0][0], points[-1][0]
    named = f"The baseline from {begin:f} to {end:f} min"
    if begin >= end:
        raise OnsetRefused(
            f"{named} ends where it begins or before: correct the times."
        )
    if begin < first or end > last:
        raise OnsetRefused(
            f"{named} lies outside the curve, which goes from {first:f} to {last:f} min: "
            "correct the times."
        )
    held = sum(begin <= time <= end for time, _ in points)
    if held < 2:
        raise OnsetRefused(
            f"{named} holds {held} of the points, a line needs 2: make it longer."
        )
    after = sum(time > end for time, _ in points)
    if after < FIVE:
        raise OnsetRefused(
            f"{named} leaves {after} points after it, a tangent needs {FIVE}: "
            "end it before the rise."
        )


def _check_rise(
    net: "Floats",
    upward: "Floats",
    is_base: "NDArray[np.bool_]",
    first: int,
    end: Decimal,
) -> None:
    """Refuse a curve that nowhere stands clearly above its baseline."""
    kept = net[is_base]
    scatter = math.sqrt(float((kept * kept).sum()) / max(len(kept) - 2, 1))
    least, highest = LEAST * float(abs(upward).max()), float(net[first:].max())
    if highest > max(CLEAR * scatter, least):
        return
    seen = (
        f"at most {highest:.3g} above it, which its own scatter explains"
        if highest > least
        else "nowhere above it"
    )
    raise OnsetRefused(
        f"There is no rise after the baseline: beyond {end:f} min the curve stands {seen}. "
        "See whether the exotherm is in the curve and which way it points."
    )


def _check_slope(rise: Line, five: Sequence[tuple[Decimal, Decimal]]) -> None:
    """Refuse a curve that jumps from its baseline between two points: it has no tangent."""
    if rise.slope > 0:
        return
    raise OnsetRefused(
        f"After the baseline no five points in a row rise: by {five[0][0]:f} min the curve "
        "has jumped already. End the baseline earlier, or export more points a minute."
    )


def _check_crossing(
    crossing: Decimal,
    baseline: tuple[Decimal, Decimal],
    five: Sequence[tuple[Decimal, Decimal]],
) -> None:
    """Refuse a baseline that reaches into the rise, and a tangent that starts below it."""
    begin, end = baseline
    if crossing < end:
        raise OnsetRefused(
            f"The lines cross at {crossing:.2f} min, within or before the baseline from "
            f"{begin:f} to {end:f} min: end the baseline before the rise begins."
        )
    if crossing > five[-1][0]:
        raise OnsetRefused(
            f"The steepest rise, at {five[0][0]:f} to {five[-1][0]:f} min, lies below the "
            "baseline: choose a baseline nearer to the rise."
        )
