"""Runs by the clock or the counter: how far they have come and when they end, counted from the stored start."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

from lims.bench.models import Condition
from lims.methods.models import Characteristic
from specs.methods.strokes import FASTEST, NOMINAL, SLOWEST, nominal_end
from specs.numbers import Number, read

START, RATE = "started_at", "strokes_per_minute"
SECONDS_AN_HOUR = Decimal(3600)


@dataclass(frozen=True)
class Run:
    """One run: what it counts, how much of it in all, since when, until when."""

    unit: str  # "strokes" or "h"
    total: Decimal
    started_at: dt.datetime
    ends_at: dt.datetime

    def done_at(self, moment: dt.datetime) -> Decimal:
        """How much of the total has passed at a moment, never more than the total."""
        span = Decimal((self.ends_at - self.started_at).total_seconds())
        passed = Decimal((moment - self.started_at).total_seconds())
        share = min(max(passed / span, Decimal(0)), Decimal(1))
        return share * self.total

    def has_ended_at(self, moment: dt.datetime) -> bool:
        return moment >= self.ends_at


def run_of(
    characteristic: Characteristic, conditions: dict[str, Condition]
) -> Run | None:
    """The run that a started determination is on; None before its start is given."""
    started = conditions.get(START)
    if started is None or not started.value:
        return None
    start = dt.datetime.fromisoformat(started.value)
    parameters = characteristic.parameters
    hours = parameters.get("rest") or parameters.get("hours")
    if hours:
        length = read(hours).value
        seconds = int(length * SECONDS_AN_HOUR)
        return Run("h", length, start, start + dt.timedelta(seconds=seconds))
    strokes = int(parameters.get("strokes", "0"))
    if strokes <= 60:
        return None
    ends = nominal_end(start, strokes, _rate(conditions))
    return Run("strokes", Decimal(strokes), start, ends)


def _rate(conditions: dict[str, Condition]) -> Decimal:
    given = conditions.get(RATE)
    rate = Number.stored(given.value).value if given else NOMINAL
    return min(max(rate, SLOWEST), FASTEST)
