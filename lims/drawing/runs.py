"""The curve of a pressure DSC run as the record holds it: what its picture is drawn from, and the same in figures."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from lims.bench.evaluation import Held
from lims.bench.models import Determination
from lims.bench.traces import points_of
from lims.drawing.onset import Straight
from lims.methods.models import Characteristic
from lims.wording.numbers import shown
from specs.judging.steps import rounded
from specs.methods.induction import ADMITTED, BASE_FROM, BASE_TO, EXOTHERM
from specs.methods.outcome import setting
from specs.numbers import Number, shortened

FIVE = "five points"
DIGITS = "4 digits"
NOUGHT = Decimal("1E-12")  # a slope below it is the arithmetic's own rounding
KEYS = (ADMITTED.key, BASE_FROM.key, BASE_TO.key)
Figures = tuple[tuple[str, str], ...]


def drawn_from(
    characteristic: Characteristic,
    it: Determination,
    has: Held,
    table: Sequence[tuple[str, str]],
) -> Mapping[str, Any]:
    """What the picture is drawn from; a curve whose exotherm points down is drawn upside down."""
    turned = -1.0 if setting(characteristic.parameters, EXOTHERM) == "down" else 1.0
    points = [(float(x), turned * float(y)) for x, y in points_of(has.trace)]
    numbers = {key: _number(has, key) for key in KEYS}
    parts, lines = it.parts, {}
    if parts:
        lines = {
            "base": _line(parts, "baseline", turned),
            "between": (numbers[BASE_FROM.key], numbers[BASE_TO.key]),
            "tangent": _line(parts, "tangent", turned),
            "crossing": float(parts["onset"]),
            "words": f"{_minutes(parts['onset'])} min",
        }
    admitted = numbers[ADMITTED.key]
    more = {"admitted": admitted} if admitted is not None else {"admitted": -1.0}
    upside = " It is drawn upside down: the exotherm points down." if turned < 0 else ""
    told = ". ".join(f"{name}: {value}" for name, value in table)
    return {
        "title": f"{characteristic.name}: curve of set {it.place}",
        "about": f"{told or 'No lines are drawn yet'}.{upside}",
        "points": points,
        **more,
        **lines,
    }


def _number(has: Held, key: str) -> float | None:
    row = has.conditions.get(key)
    if row is None:
        return None
    return float(Number.stored(row.value).value)


def _line(parts: Mapping[str, str], which: str, turned: float) -> Straight:
    return Straight(
        turned * float(parts[f"{which}_slope"]),
        turned * float(parts[f"{which}_intercept"]),
    )


def figures_of(it: Determination, has: Held) -> Figures:
    """The figures behind the picture; before there are lines those that were typed."""
    parts = it.parts
    rows = [("Oxygen admitted", _typed(has, ADMITTED.key))]
    begin, end = _typed(has, BASE_FROM.key), _typed(has, BASE_TO.key)
    rows.append(("Baseline", f"{begin} to {end}" if begin and end else begin or end))
    if parts:
        five = parts["five_minutes"].split()
        rows += [
            ("Slope of the baseline", _slope(parts["baseline_slope"])),
            (
                "Tangent",
                f"through {FIVE} from {shown(five[0])} to {shown(five[-1])} min",
            ),
            ("Slope of the tangent", _slope(parts["tangent_slope"])),
            ("Onset on the curve", f"{_minutes(parts['onset'])} min"),
            ("Induction time", f"{_minutes(it.value)} min"),
        ]
    return tuple((name, value) for name, value in rows if value)


def _typed(has: Held, key: str) -> str:
    row = has.conditions.get(key)
    return f"{shown(row.value)} min" if row is not None else ""


def _minutes(text: str) -> str:
    return shown(shortened(Number.stored(text).value))


def _slope(text: str) -> str:
    """Four digits, in the signal's unit a minute."""
    slope = Decimal(text)
    if abs(slope) < NOUGHT:
        return "0 a minute"
    return f"{shown(rounded(slope, DIGITS))} a minute"
