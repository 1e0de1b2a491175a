"""Days that workbooks keep as a count of days, from 1900 or from 1904: which of the two is meant."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from specs.tables.cells import Judged, shown
from specs.tables.days.order import Spot
from specs.tables.days.written import in_words, of_count
from specs.tables.saying import Fate, Said
from specs.tables.sheet import NUMBER

COUNTED = "serial epoch"
EPOCHS = ("1900", "1904")
NEAR = dt.timedelta(days=92)  # from the other days of the column


@dataclass(frozen=True)
class Counting:
    """How the counts of one column are read: the workbook's own way, and what the other days speak for."""

    today: dt.date
    earliest: dt.date
    own: str  # the epoch of the workbook itself
    proposed: str = ""

    def days(self, count: int) -> dict[str, dt.date]:
        """The days that a count can mean, by epoch: neither after today nor too early."""
        days = {it: of_count(count, is_1904=it == "1904") for it in EPOCHS}
        return {
            epoch: day
            for epoch, day in days.items()
            if day and self.earliest <= day <= self.today
        }

    def is_asked(self, kind: str, count: int) -> bool:
        """Whether nothing says from when a count counts. A number cell counts as its workbook does."""
        days = self.days(count)
        if kind == NUMBER:
            return bool(days) and self.own not in days
        return len(days) > 1

    def judged(self, kind: str, spot: Spot) -> Judged:
        """A count of days by itself; raises nothing."""
        count = spot.it.count or 0
        days = self.days(count)
        if not days:
            return _no_count(spot, self.today)
        settled = {it: _said(spot, it, day, "as answered") for it, day in days.items()}
        if self.is_asked(kind, count):
            meanings = " or ".join(_meaning(it, day) for it, day in days.items())
            why = f"{shown(spot.text)} is a count of days: {meanings}."
            return Judged(Said(Fate.ASKS, why=why), COUNTED, settled)
        epoch = self.own if kind == NUMBER else next(iter(days))
        why = "as the workbook counts" if kind == NUMBER else self._other(count, epoch)
        return Judged(_said(spot, epoch, days[epoch], why))

    def _other(self, count: int, epoch: str) -> str:
        """Why the other epoch is not meant."""
        other = "1904" if epoch == "1900" else "1900"
        day = of_count(count, is_1904=other == "1904")
        if day is None:
            return f"counted from {other} it is no day"
        side = "after today" if day > self.today else "before 1990"
        return f"counted from {other} it would be {in_words(day)}, {side}"


def counting(
    counts: Iterable[tuple[str, Spot]],
    certain: Sequence[dt.date],
    today: dt.date,
    earliest: dt.date,
    *,
    is_1904: bool,
) -> Counting:
    """How the counts of a column are read; `certain` are its days that are no counts."""
    plain = Counting(today, earliest, "1904" if is_1904 else "1900")
    meant = [
        plain.days(it.it.count)
        for kind, it in counts
        if it.it.count is not None and plain.is_asked(kind, it.it.count)
    ]
    return Counting(today, earliest, plain.own, _proposed(meant, certain))


def choices(counted: Sequence[Spot], how: Counting) -> Mapping[str, str]:
    """By epoch what it makes of the first cells that are asked."""
    made: dict[str, list[str]] = {}
    for spot in counted:
        for epoch, day in how.days(spot.it.count or 0).items():
            made.setdefault(epoch, []).append(f"{spot.text} = {in_words(day)}")
    return {epoch: "; ".join(made[epoch][:3]) for epoch in EPOCHS if epoch in made}


def _proposed(
    meant: Sequence[Mapping[str, dt.date]], certain: Sequence[dt.date]
) -> str:
    """The one epoch by which all counts lie near the column's other days."""
    if not meant or not certain:
        return ""
    first, last = min(certain) - NEAR, max(certain) + NEAR
    near = [
        epoch
        for epoch in EPOCHS
        if all(epoch in days and first <= days[epoch] <= last for days in meant)
    ]
    return near[0] if len(near) == 1 else ""


def _meaning(epoch: str, day: dt.date) -> str:
    return f"{in_words(day)} counted from {epoch}"


def _said(spot: Spot, epoch: str, day: dt.date, why: str) -> Said:
    rule = f"{spot.text} = {in_words(day)}, counted in days from {epoch}; {why}"
    if spot.it.has_time:
        rule = f"{rule}; the time of day is left out"
    return Said(Fate.CONVERTED, value=day.isoformat(), rule=rule)


def _no_count(spot: Spot, today: dt.date) -> Judged:
    late = of_count(spot.it.count or 0, is_1904=False)
    if late and late > today:
        why, matter = (
            f"would lie after today, {in_words(today)}, as a count of days",
            "after today",
        )
    else:
        why, matter = "would lie before 1990 as a count of days", "before 1990"
    return Judged(
        Said(
            Fate.REFUSED,
            why=f"{shown(spot.text)} {why}: write the day of the test, such as 2025-12-03.",
        ),
        matter,
    )
