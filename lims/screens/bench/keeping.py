"""The line beside a box: what is saved and by whom, how it was understood, what it waits for."""

import datetime as dt
from dataclasses import dataclass

from lims.bench.evaluation import Held
from lims.bench.models import Condition, Reading
from lims.bench.rules import NeedsReason
from lims.bench.typed import has_day
from lims.instruments.models import Instrument
from lims.record.clock import now
from lims.record.refusals import Refusal
from lims.screens.bench import vessels
from lims.screens.bench.forms import REASONS
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import shown
from specs.methods.moments import duration
from specs.methods.outcome import Condition as Asked
from specs.methods.outcome import Slot
from specs.methods.working import BEFORE_READING, STARTED_AT


@dataclass(frozen=True)
class Kept:
    """The line beside a box: what is saved, how it was understood, what is wrong."""

    saved: str = ""
    understood: str = ""
    since: str = ""
    changed: str = ""
    waits: str = ""
    state: str = ""  # of the instrument
    refusal: Refusal | None = None
    again: str = ""  # what was typed and is to be typed once more
    reason: str = ""  # what was chosen or written as the reason, and did not suffice
    why: str = ""

    @property
    def state_words(self) -> str:
        return state_words(self.state)

    @property
    def reasons(self) -> tuple[tuple[str, str], ...]:
        return REASONS

    @property
    def asks(self) -> str:
        """``reason``, ``again`` or nothing."""
        if self.again:
            return "again"
        return "reason" if isinstance(self.refusal, NeedsReason) else ""


def state_words(state: str) -> str:
    """The state of an instrument, and what follows from it for what it reads."""
    is_barred = state and state != Instrument.State.IN_SERVICE
    return f"{state}: cannot count" if is_barred else state


def of_condition(
    row: Condition | None, asked: Asked, offered: str, *, is_known: bool = True
) -> Kept:
    """What stands beside a condition; `is_known` where an instrument of its kind is registered."""
    if row is None and offered and asked.kind == "instrument":
        return Kept(waits="not saved yet: Enter saves it")
    if row is None and asked.kind == "instrument" and not is_known:
        return Kept(waits=_none_known(asked))
    if row is None:
        return Kept(waits="" if asked.required or asked.default else "if it is used")
    understood = ""
    if asked.kind == "time":
        understood = _moment_understood(row)
    elif asked.kind == "number":
        understood = f"= {shown(row.value)} {asked.unit}".strip()
    return Kept(
        saved=_saved(row.saved_at, str(row.saved_by)),
        understood=understood,
        changed=_changed(row.reason),
        state=row.instrument_state,
    )


def _none_known(asked: Asked) -> str:
    """Why there is nothing to choose, and where that is mended."""
    if not asked.required:
        return "if it is used; none is registered yet"
    return (
        f"No {asked.instrument_kind} is registered yet: ask for one under Instruments. "
        "What is read meanwhile is kept."
    )


def _moment_understood(row: Condition) -> str:
    """The day and time that a clock time was taken as; a time that had not come yet is yesterday's."""
    moment = dt.datetime.fromisoformat(row.value)
    saved_on = dates.local_day(row.saved_at, zone())
    if (
        has_day(row.text)
        or saved_on != dates.local_day(now(), zone())
        or dates.local_day(moment, zone()) == saved_on
    ):
        return f"= {dates.day_time(moment, zone(), seconds=True)}"
    seconds = moment.second != 0
    return f"taken as yesterday, {dates.near(moment, now(), zone(), seconds=seconds)}"


def of_reading(row: Reading | None, slot: Slot, unit: str, has: Held) -> Kept:
    if row is None:
        return Kept(waits=_waits(slot, _moment(has, STARTED_AT.key)))
    return Kept(
        saved=_saved(row.saved_at, str(row.saved_by)),
        understood=_understood(row, slot, unit),
        since=", ".join(it for it in (_since(row, has), _earlier_day(row)) if it),
        changed=_changed(row.reason),
    )


def _understood(row: Reading, slot: Slot, unit: str) -> str:
    if slot.kind != "number" or not row.value or row.value in slot.choices:
        return ""
    kpa = vessels.in_kpa(row.value, unit)
    if kpa:
        return f"= {kpa} {vessels.KPA}"
    return shown_with(row.value, unit)


def shown_with(value: str, unit: str) -> str:
    """``= 27.9 × 0.1 mm``: the number that was understood."""
    factor = "× " if unit[:1].isdigit() else ""
    return f"= {shown(value)} {factor}{unit}".rstrip()


def _moment(has: Held, key: str) -> dt.datetime | None:
    row = has.conditions.get(key)
    return dt.datetime.fromisoformat(row.value) if row and row.value else None


def _waits(slot: Slot, started_at: dt.datetime | None) -> str:
    """When a reading of a run by the hour is due."""
    hour = slot.row.removesuffix(" h")
    if not hour.isdigit() or started_at is None:
        return "if there is one" if slot.optional and not slot.row else ""
    due = started_at + dt.timedelta(hours=int(hour))
    return f"due {dates.near(due, now(), zone())}"


def _since(row: Reading, has: Held) -> str:
    ended = _moment(has, BEFORE_READING.key)
    if ended is None:
        return ""
    passed = row.read_at - ended
    side = "before" if passed < dt.timedelta(0) else "after"
    return f"read {duration(passed)} {side} the strokes ended"


def _earlier_day(row: Reading) -> str:
    """When it was read, where that was not on the day it was saved."""
    if dates.local_day(row.read_at, zone()) == dates.local_day(row.saved_at, zone()):
        return ""
    return f"read {dates.near(row.read_at, row.saved_at, zone())}"


def _saved(at: dt.datetime, by: str) -> str:
    day = dates.local_day(at, zone()) == dates.local_day(now(), zone())
    when = dates.clock(at, zone()) if day else dates.near(at, now(), zone())
    return f"Saved {when} by {by}"


def _changed(reason: str) -> str:
    return f"changed: {reason}" if reason else ""
