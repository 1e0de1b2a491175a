"""A test that runs by the clock or the counter, as the bench shows it: how far, until when, what is read next."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal
from typing import Any

from lims.bench.models import Determination, Test
from lims.bench.running import Run, run_of
from lims.record.clock import now
from lims.screens.zone import zone
from lims.wording import dates, durations
from lims.wording.numbers import NO_BREAK, counts

FEW_HOURS = 30  # up to here a tick an hour, above it a tick every four


@dataclass(frozen=True)
class Interim:
    """A reading on the way: its hour, when it is due, whether it is taken."""

    hour: Decimal
    due_at: dt.datetime
    taken: bool


@dataclass(frozen=True)
class Shown:
    """One run in words and on its ruler."""

    run: Run
    done: str
    total_words: str
    share: str
    has_ended: bool
    says: str
    next_due: str
    values: Mapping[str, Any]

    @property
    def ends_at(self) -> dt.datetime:
        return self.run.ends_at


def of(test: Test, determination: Determination | None) -> Shown | None:
    """The run that a determination is on; None while it is not started, or when it is read to the end."""
    if determination is None or determination.is_complete:
        return None
    rows = sorted(determination.conditions.all(), key=lambda row: row.pk)
    run = run_of(test.characteristic, {row.key: row for row in rows})
    return _shown(test, determination, run) if run is not None else None


def _shown(test: Test, determination: Determination, run: Run) -> Shown:
    done = run.done_at(now()).to_integral_value(ROUND_FLOOR)
    between = interim(test, determination, run)
    total = run.total.to_integral_value()
    in_strokes = run.unit == "strokes"
    unit = run.unit if in_strokes else "hours"
    ended = run.has_ended_at(now())
    return Shown(
        run=run,
        done=counts(int(done)),
        total_words=f"{counts(int(total))} {unit}",
        share=f"{int(done * 100 / total)}{NO_BREAK}%",
        has_ended=ended,
        says=_says(run, ended=ended),
        next_due=_next(between),
        values={
            "title": f"{counts(int(done))} of {counts(int(total))} {unit}",
            "total": total,
            "done": done,
            "major": total / 10 if in_strokes else _major(total),
            "minor": total / 50 if in_strokes else _minor(total),
            "labels": _labels(total, in_strokes=in_strokes),
            "slots": [(each.hour, each.taken) for each in between],
        },
    )


def _major(hours: Decimal) -> Decimal:
    return Decimal(6) if hours <= FEW_HOURS else Decimal(24)


def _minor(hours: Decimal) -> Decimal:
    return Decimal(1) if hours <= FEW_HOURS else Decimal(4)


def _labels(total: Decimal, *, in_strokes: bool) -> list[tuple[Decimal, str]]:
    half = total / 2
    tail = "" if in_strokes else " h"
    return [
        (Decimal(0), "0"),
        (half, counts(int(half))),
        (total, f"{counts(int(total))}{tail}"),
    ]


def interim(test: Test, determination: Determination, run: Run) -> list[Interim]:
    """The readings on the way, first to last, and the one at the end."""
    if run.unit != "h":
        return []
    taken = {reading.slot for reading in determination.readings.all()}
    hours = [*test.characteristic.parameters.get("interim", "").split(), str(run.total)]
    vessels = range(1, int(test.characteristic.parameters.get("vessels", "1")) + 1)
    return [
        Interim(
            Decimal(hour),
            run.started_at + dt.timedelta(hours=float(hour)),
            taken=all(f"at_{hour}_{place}" in taken for place in vessels),
        )
        for hour in hours
    ]


def _next(between: list[Interim]) -> str:
    """The next reading that is still to be taken, with what is late first."""
    for each in between:
        if not each.taken:
            when = dates.near(each.due_at, now(), zone())
            away = durations.ahead(each.due_at, now())
            return f"{each.hour:f} h reading {when}, {away}"
    return ""


def _says(run: Run, *, ended: bool) -> str:
    exact = dates.near(run.ends_at, now(), zone(), seconds=bool(run.ends_at.second))
    when = f"{exact} {dates.zone_name(run.ends_at, zone())}"
    ends = f"Ended {when}." if ended else f"Ends {when}."
    if run.unit == "strokes":
        return f"{ends} Then back to 25 °C, 60 strokes, and the three cone readings at once."
    return f"{ends} Nothing is judged before the hours are over."
