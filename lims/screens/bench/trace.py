"""The curve of a run as its leaf shows it: drawn with both lines, told in words and as a table, with the file it came as and what was said of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from lims.bench.evaluation import (
    Held,
    conditions_of,
    held,
    is_set_aside_by_hand,
    picture_of,
    procedure_of,
    stands,
)
from lims.bench.models import Condition, Determination, Test, Trace
from lims.bench.traces import points_of
from lims.drawing.onset import Straight
from lims.methods.models import Characteristic
from lims.screens.bench.curve_forms import CurveForm, TraceForm
from lims.screens.bench.sets import Sent
from lims.wording.numbers import shown
from specs.judging.steps import rounded
from specs.methods.induction import ADMITTED, BASE_FROM, BASE_TO, EXOTHERM
from specs.methods.outcome import setting
from specs.numbers import Number, shortened

State = Determination.State
FIVE = "five points"
DIGITS = "4 digits"
NOUGHT = Decimal("1E-12")  # a slope below it is the arithmetic's own rounding


@dataclass(frozen=True)
class Said:
    """What was said of a curve, by whom and when; `stands` while it is of what is drawn now."""

    answer: str
    row: Condition
    stands: bool


@dataclass(frozen=True)
class Curve:
    """The curve of one set."""

    place: int
    row: Trace
    values: Mapping[str, Any]  # what it is drawn from
    rows: tuple[tuple[str, str], ...]  # the same as a table
    words: str
    seen: str
    said: Said | None
    is_open: bool
    may_judge: bool
    has_lines: bool
    older: tuple[Trace, ...]
    form: CurveForm | None


@dataclass(frozen=True)
class Curves:
    """The curves of a test, that of the open set first, and the form for a file."""

    shown: tuple[Curve, ...]
    place: int
    kept: Trace | None  # of the open set; another one needs a reason
    form: TraceForm | None
    asks_for: str


def curves(
    test: Test,
    sets: Sequence[Determination],
    open_set: Determination | None,
    *,
    place: int,
    may_enter: bool,
    sent: Sent | None,
) -> Curves | None:
    """Everything about curves on the leaf of a test; None for a test that takes none."""
    if not procedure_of(test.characteristic).takes_trace:
        return None
    found = [
        _curve(test, each, row, is_open=each is open_set, may=may_enter, sent=sent)
        for each in sets
        if (row := held(each).trace) is not None
    ]
    kept = held(open_set).trace
    form = sent.trace if sent is not None and sent.trace is not None else TraceForm()
    return Curves(
        shown=tuple(sorted(found, key=lambda it: (not it.is_open, -it.place))),
        place=place,
        kept=kept,
        form=form if may_enter else None,
        asks_for=f"{'Another curve' if kept else 'File of the curve'} for set {place}",
    )


def _curve(
    test: Test,
    it: Determination,
    row: Trace,
    *,
    is_open: bool,
    may: bool,
    sent: Sent | None,
) -> Curve:
    characteristic, has = test.characteristic, held(it)
    table = _table(it, has)
    older = [old for old in it.traces.all() if old.pk != row.pk]
    return Curve(
        place=it.place,
        row=row,
        values=_values(characteristic, it, has, table),
        rows=table,
        words=f"{it.says[:1].upper()}{it.says[1:]}." if it.says else "",
        seen=picture_of(characteristic, has),
        said=_said(characteristic, has),
        is_open=is_open,
        may_judge=may and not is_set_aside_by_hand(it),
        has_lines=bool(it.parts),
        older=tuple(sorted(older, key=lambda old: -old.pk)),
        form=sent.judged if sent is not None and sent.place == it.place else None,
    )


def _said(characteristic: Characteristic, has: Held) -> Said | None:
    """What was said last of the curve of a set."""
    asked = next(it for it in conditions_of(characteristic) if it.of_curve)
    row = has.conditions.get(asked.key)
    if row is None:
        return None
    return Said(row.text, row, stands(asked, row, picture_of(characteristic, has)))


# ---- The picture


def _values(
    characteristic: Characteristic,
    it: Determination,
    has: Held,
    table: Sequence[tuple[str, str]],
) -> Mapping[str, Any]:
    """What the picture is drawn from; a curve whose exotherm points down is drawn upside down."""
    turned = -1.0 if setting(characteristic.parameters, EXOTHERM) == "down" else 1.0
    points = [(float(x), turned * float(y)) for x, y in points_of(has.trace)]
    numbers = {key: _number(has, key) for key in _KEYS}
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


_KEYS = (ADMITTED.key, BASE_FROM.key, BASE_TO.key)


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


# ---- The same in figures


def _table(it: Determination, has: Held) -> tuple[tuple[str, str], ...]:
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
