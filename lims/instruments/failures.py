"""When an instrument was found off, by how much, and when it was last found right: the two ends of a look-back."""

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

from lims.instruments.models import Check, Instrument, ReferenceReading
from lims.people.queries import site_zone
from specs.control.reference import Finding
from specs.numbers import Number


@dataclass(frozen=True)
class Found:
    """A check or a reference reading: whether the instrument was right then."""

    key: str  # r12 for a reference reading, c5 for a check
    day: dt.date  # on which it was found, on the laboratory's clock
    at: dt.datetime  # when it was recorded
    words: str
    is_good: bool
    is_bad: bool
    reading: ReferenceReading | None = None

    @property
    def since(self) -> dt.datetime:
        """From when on nothing is known of the instrument. A check tells the day alone, so what was done on that day is looked at too."""
        if self.reading is not None:
            return self.at
        return dt.datetime.combine(self.day, dt.time(), tzinfo=site_zone())


@dataclass(frozen=True)
class Failure:
    """An instrument found off, with what was found right before; `bias` only where a reference reading told it."""

    instrument: Instrument
    found: Found
    before: Found | None

    @property
    def bias(self) -> Fraction | None:
        reading = self.found.reading
        return Number.stored(reading.bias).exact if reading else None

    @property
    def unit(self) -> str | None:
        """The unit that the bias is in."""
        reading = self.found.reading
        return reading.material.characteristic.unit if reading else None


def failures_of(instrument: Instrument) -> list[Failure]:
    """Each time that it was found off, the latest first, with the last good check or reference reading before."""
    failures: list[Failure] = []
    before: Found | None = None
    for found in _in_order(instrument):
        if found.is_bad:
            failures.append(Failure(instrument, found, before))
        elif found.is_good:
            before = found
    return failures[::-1]


def failure_of(instrument: Instrument, key: str = "") -> Failure | None:
    """The failure of that key; without a key the latest."""
    found = failures_of(instrument)
    return next((it for it in found if key in ("", it.found.key)), None)


def _in_order(instrument: Instrument) -> list[Found]:
    """By the day on which each was found: a check may be recorded, or brought in, long after it was done."""
    readings = instrument.reference_readings.select_related("material__characteristic")
    rows = [
        *(_of_check(it) for it in instrument.checks.all()),
        *(_of_reading(it) for it in readings),
    ]
    return sorted(rows, key=lambda it: (it.day, it.at, it.key))


def _of_check(it: Check) -> Found:
    return Found(
        f"c{it.pk}",
        it.done_on,
        it.recorded_at,
        it.found,
        is_good=it.is_fit,
        is_bad=not it.is_fit,
    )


def _of_reading(it: ReferenceReading) -> Found:
    return Found(
        f"r{it.pk}",
        it.read_at.astimezone(site_zone()).date(),
        it.read_at,
        it.in_words,
        is_good=it.is_good,
        is_bad=it.finding == Finding.BEYOND,
        reading=it,
    )
