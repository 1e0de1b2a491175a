"""The bench list: what waits, by when it is wanted, and what runs. The same number of queries however many lots there are."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Prefetch

from lims.batches.models import FillLot, Sample
from lims.bench.evaluation import procedure_of
from lims.bench.models import Condition, Determination, Reading, Test
from lims.bench.reporting import active_value
from lims.record.clock import now
from lims.screens.bench import finding, runs
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import shown

State = Test.State
SOON = dt.timedelta(minutes=30)  # what is wanted this soon counts as now
IN_WORDS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


@dataclass(frozen=True)
class Wanted:
    """One test that waits for a person, and since or until when."""

    test: Test
    due_at: dt.datetime
    words: str


@dataclass(frozen=True)
class Row:
    """One sample with what it waits for; the rest is folded."""

    sample: Sample
    wanted: list[Wanted]
    others: list[tuple[str, str]]  # state and words

    @property
    def due_at(self) -> dt.datetime:
        return min(each.due_at for each in self.wanted)

    @property
    def is_kettle(self) -> bool:
        return self.sample.is_in_process

    @property
    def is_late(self) -> bool:
        return self.due_at < now()

    @property
    def day(self) -> str:
        """The day where it is not today."""
        on, today = (dates.local_day(it, zone()) for it in (self.due_at, now()))
        if on == today:
            return ""
        if on == today - dt.timedelta(days=1):
            return "yesterday"
        return dates.day(on, zone(), weekday=True, year=on.year != today.year)

    @property
    def from_where(self) -> str:
        product, detail = self.sample.batch.product.code, self.sample.detail
        where = f"{product}, {self.sample.place}"
        return f"{where}: {detail}" if detail else where


@dataclass(frozen=True)
class Section:
    """The rows of one span of time, under its words."""

    key: str
    words: str
    note: str
    rows: list[Row]


@dataclass(frozen=True)
class Going:
    """One running test, for the list of those."""

    test: Test
    run: runs.Shown
    by: str  # the instruments


@dataclass(frozen=True)
class Bench:
    """The whole list."""

    answer: str
    sections: list[Section]
    running: list[Going]

    @property
    def is_empty(self) -> bool:
        return not self.sections and not self.running


def bench() -> Bench:
    open_tests = list(_open_tests())
    going = [
        (test, run)
        for test in open_tests
        if test.state == State.RUNNING
        and (run := runs.of(test, finding.current(test))) is not None
    ]
    ended = {test.pk: run for test, run in going if run.has_ended}
    wanted = [
        _wanted(test, ended.get(test.pk))
        for test in open_tests
        if test.state == State.DUE or test.pk in ended
    ]
    rows = _rows(wanted, open_tests)
    return Bench(
        answer=_answer(rows, len(going)),
        sections=_sections(rows),
        running=[_going(test, run) for test, run in going],
    )


def _open_tests() -> Iterable[Test]:
    """Tests that are due or running on samples whose lot still takes readings; none that is computed."""
    readings: Prefetch[str] = Prefetch(
        "readings", Reading.objects.only("determination", "slot")
    )
    conditions: Prefetch[str] = Prefetch(
        "conditions", Condition.objects.prefetch_related("instrument")
    )
    sets = Determination.objects.exclude(state=Determination.State.SET_ASIDE)
    determinations: Prefetch[str] = Prefetch(
        "determinations", sets.prefetch_related(readings, conditions)
    )
    # Fetched once each, not once a test as a join would.
    samples: Prefetch[str] = Prefetch(
        "sample", Sample.objects.select_related("batch__product", "fill_lot")
    )
    return (
        Test.objects.filter(state__in=(State.DUE, State.RUNNING))
        .filter(characteristic__derived_from={})
        .exclude(sample__fill_lot__state=FillLot.State.RELEASED)
        .prefetch_related("characteristic", samples, determinations)
        .order_by("due_at", "sample__number", "characteristic__place")
    )


def _wanted(test: Test, run: runs.Shown | None) -> Wanted:
    it, determination = test.characteristic, finding.current(test)
    words = f"{it.name[:1].lower()}{it.name[1:]}"
    if it.conditions:
        words = f"{words}, {it.conditions}"
    if test.sample.is_in_process:
        words = f"{words}: kettle check"
    if run is not None:
        return Wanted(test, run.ends_at, f"{words}: the run has ended, read it now")
    waits = _waits(test, determination)
    words = f"{words}: {waits}" if waits else words
    return Wanted(test, test.due_at or test.sample.received_at, words)


def _waits(test: Test, determination: Determination | None) -> str:
    """What is at fault with the open set or still to be said of its curve, else what the rules of the edition ask for, else how far it has come."""
    if determination is not None and determination.bars:
        return "readings that cannot count"
    if determination is not None and determination.is_complete:
        return "a fresh fill, the set is not accepted"
    asks = _asks_of_curve(test, determination)
    if asks and determination is not None and determination.parts:  # lines are drawn
        return _as_clause(asks)
    if test.asks:
        return _as_clause(test.asks.partition(":")[0])
    if determination is None:
        return ""
    return _as_clause(asks) if asks else determination.says


def _asks_of_curve(test: Test, determination: Determination | None) -> str:
    """What the open run of a curve still lacks."""
    if determination is None or not procedure_of(test.characteristic).takes_trace:
        return ""
    return determination.asks[0] if determination.asks else ""


def _as_clause(sentence: str) -> str:
    return f"{sentence[:1].lower()}{sentence[1:]}".rstrip(".")


def _rows(wanted: list[Wanted], open_tests: list[Test]) -> list[Row]:
    by_sample: dict[int, list[Wanted]] = {}
    for each in wanted:
        by_sample.setdefault(each.test.sample_id, []).append(each)
    folded = _folded(by_sample, open_tests)
    rows = [
        Row(several[0].test.sample, several, folded.get(pk, []))
        for pk, several in by_sample.items()
    ]
    return sorted(
        rows, key=lambda row: (not row.is_kettle, row.due_at, str(row.sample))
    )


def _folded(
    by_sample: dict[int, list[Wanted]], open_tests: list[Test]
) -> dict[int, list[tuple[str, str]]]:
    """What else there is of the samples on the list: running tests and reported values."""
    found: dict[int, list[tuple[str, str]]] = {}
    shown_already = {each.test.pk for several in by_sample.values() for each in several}
    for test in open_tests:
        if test.sample_id in by_sample and test.pk not in shown_already:
            found.setdefault(test.sample_id, []).append(
                (State.RUNNING.value, test.characteristic.in_full)
            )
    reported = (
        Test.objects.filter(sample__in=by_sample, state=State.REPORTED)
        .select_related("characteristic")
        .prefetch_related("reported_values")
        .order_by("characteristic__place")
    )
    for test in reported:
        it, value = test.characteristic, active_value(test)
        figure = shown(value.reported, signed=it.is_signed) if value else ""
        words = f"{it.in_full} {figure} {it.unit if it.unit[:1] != '0' else ''}".strip()
        found.setdefault(test.sample_id, []).append((State.REPORTED.value, words))
    return found


def _sections(rows: list[Row]) -> list[Section]:
    """Now (a waiting kettle first, then late, then due), later today, and each following day."""
    today = dates.local_day(now(), zone())
    first = [row for row in rows if row.is_kettle or row.due_at <= now() + SOON]
    rest = [row for row in rows if row not in first]
    sections = [
        Section(
            "now",
            "Due now",
            "A waiting kettle first, then what is late, then by the time due.",
            first,
        )
    ]
    days: dict[dt.date, list[Row]] = {}
    for row in rest:
        days.setdefault(dates.local_day(row.due_at, zone()), []).append(row)
    for day, several in sorted(days.items()):
        words = (
            "Later today"
            if day == today
            else dates.day(day, zone(), weekday=True, year=False)
        )
        sections.append(Section(f"d{day:%m%d}", words, "", several))
    return [section for section in sections if section.rows]


def _going(test: Test, run: runs.Shown) -> Going:
    determination = finding.current(test)
    rows = determination.conditions.all() if determination is not None else []
    newest = {row.key: row for row in sorted(rows, key=lambda row: row.pk)}
    names = [str(row.instrument) for row in newest.values() if row.instrument]
    return Going(test, run, " and ".join(names))


def _answer(rows: list[Row], running: int) -> str:
    tests = sum(len(row.wanted) for row in rows)
    if not tests:
        due = "No test is due"
    else:
        samples = f"{len(rows)} sample{'' if len(rows) == 1 else 's'}"
        due = f"{tests} {'test is' if tests == 1 else 'tests are'} due on {samples}"
    late = sum(each.due_at < now() for row in rows for each in row.wanted)
    if late:
        due += f"; {_counted(late)} {'is' if late == 1 else 'are'} late"
    kettles = sum(row.is_kettle for row in rows)
    waits = ""
    if kettles:
        waits = (
            " A kettle waits."
            if kettles == 1
            else f" {_counted(kettles).capitalize()} kettles wait."
        )
    runs_words = (
        f" {_counted(running).capitalize()} {'is' if running == 1 else 'are'} running."
        if running
        else ""
    )
    return f"{due}.{waits}{runs_words}"


def _counted(number: int) -> str:
    return IN_WORDS[number] if 0 < number < len(IN_WORDS) else str(number)
