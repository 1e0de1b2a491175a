"""The curve of a run as its leaf shows it: drawn with both lines, told in words and as a table, with the file it came as and what was said of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
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
from lims.drawing.runs import drawn_from, figures_of
from lims.methods.models import Characteristic
from lims.screens.bench.curve_forms import CurveForm, TraceForm
from lims.screens.bench.sets import Sent

State = Determination.State


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

    @property
    def waits(self) -> bool:
        """Its lines are drawn, and nothing that was said of it stands for them."""
        is_said = self.said is not None and self.said.stands
        return self.may_judge and self.has_lines and not is_said


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
    table = figures_of(it, has)
    older = [old for old in it.traces.all() if old.pk != row.pk]
    return Curve(
        place=it.place,
        row=row,
        values=drawn_from(characteristic, it, has, table),
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
