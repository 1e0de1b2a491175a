"""The tests of one sample as steps in time, from the readings as the story tells them."""

import datetime as dt
from collections.abc import Callable, Generator, Iterator, Mapping
from typing import Any

from lims.bench.actions import entering, traces
from lims.bench.actions.samples import add_test
from lims.bench.evaluation import held, picture_of
from lims.bench.models import Test
from lims.management.plant import runs
from lims.methods import queries as methods
from lims.people.queries import person

Timed = tuple[dt.datetime, Callable[[], object]]

CODES = {
    "appearance": "appearance",
    "unworked": "unworked-penetration",
    "worked": "worked-penetration",
    "prolonged": "prolonged-penetration-100000",
    "dropping": "dropping-point-block",
    "oil": "oil-separation",
    "copper": "copper-strip",
    "oxidation": "oxidation-drop",
    "rested": "rested-penetration-24h",
    "reworked": "reworked-penetration-24h",
    "induction": "oxidation-induction-180",
}
# minutes after the sample was received
BEGINS = {
    "appearance": 6,
    "unworked": 20,
    "worked": 82,
    "prolonged": 90,
    "dropping": 190,
    "oil": 1900,
    "copper": 1560,
    "oxidation": 110,
    "rested": 1757,
    "reworked": 1757,
    "induction": 300,
}
PROLONGED_READ_AFTER = dt.timedelta(hours=29, minutes=30)
RESTED_READ_AFTER = dt.timedelta(hours=24, minutes=8)
REWORKED_READ_AFTER = dt.timedelta(hours=24, minutes=26)
A_FILL = dt.timedelta(minutes=16)
A_RUN = dt.timedelta(hours=2, minutes=30)
CONES = ("cone_1", "cone_2", "cone_3")


class _Desk:
    """One test of one sample, and who sits at it."""

    def __init__(self, sample: str, name: str, tester: str) -> None:
        self.sample, self.code, self.tester = sample, CODES[name], tester

    def test(self) -> Test:
        return Test.objects.get(
            sample__number=self.sample, characteristic__code=self.code
        )

    def reads(self, slot: str, text: str) -> Callable[[], object]:
        return lambda: entering.record_reading(
            test=self.test(), slot=slot, text=text, by=person(self.tester)
        )

    def notes(self, key: str, text: str) -> Callable[[], object]:
        return lambda: entering.record_condition(
            test=self.test(), key=key, text=text, by=person(self.tester)
        )

    def puts_aside(self, reason: str) -> Callable[[], object]:
        return lambda: entering.set_aside(
            determination=self.test().determinations.order_by("-place")[0],
            reason=reason,
            by=person(self.tester),
        )

    def reads_in(self, name: str, content: bytes) -> Callable[[], object]:
        return lambda: traces.import_trace(
            test=self.test(), name=name, content=content, by=person(self.tester)
        )

    def judges(self, answer: str) -> Callable[[], object]:
        return lambda: self._judge(answer)

    def _judge(self, answer: str) -> None:
        """Say it of the curve read in last, as it is drawn now."""
        run = self.test().determinations.order_by("-place")[0]
        traces.judge_curve(
            determination=run,
            answer=answer,
            seen=picture_of(run.test.characteristic, held(run)),
            by=person(self.tester),
        )


def tests_of(
    sample: str, told: Mapping[str, Any], received: dt.datetime, tester: str
) -> Iterator[Timed]:
    """Every test told of, each from its own time (after the receipt, or as written)."""
    for name, what in told.items():
        readings, *when = what if isinstance(what, list) else [what]
        begins = received + dt.timedelta(minutes=BEGINS[name])
        if when:
            begins = dt.datetime.fromisoformat(when[0]).replace(tzinfo=received.tzinfo)
        yield from _TELLERS[name](_Desk(sample, name, tester), readings, begins)


def _after(begins: dt.datetime, seconds: float) -> dt.datetime:
    return begins + dt.timedelta(seconds=seconds)


def _clock(moment: dt.datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%M:%S")


def _appearance(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    finding, _, words = told.partition(": ")
    if words:
        yield begins, desk.reads("words", words)
    yield _after(begins, 10), desk.reads("finding", finding)


def _cones(
    desk: _Desk, told: str, begins: dt.datetime, *, strokes: bool
) -> Iterator[Timed]:
    yield _after(begins, -30), desk.notes("penetrometer", "PEN-01")
    yield _after(begins, -20), desk.notes("temperature", "25.1")
    if strokes:
        yield _after(begins, 30), desk.notes("strokes_end", _clock(_after(begins, 10)))
    for slot, text, seconds in zip(CONES, told.split(), (65, 140, 220), strict=True):
        yield _after(begins, seconds), desk.reads(slot, text)


def _unworked(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    yield from _cones(desk, told, begins, strokes=False)


def _worked(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    """One fill after another, "276 284 279 ! void seen | 278 281 280": what follows the mark is why the set was set aside."""
    for number, fill in enumerate(told.split(" | ")):
        at = begins + number * A_FILL
        readings, _, reason = fill.partition(" ! ")
        yield from _cones(desk, readings, at, strokes=True)
        if reason:
            yield _after(at, 300), desk.puts_aside(reason)


def _prolonged(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    worker, _, readings = told.partition(": ")
    yield begins, desk.notes("worker", worker)
    yield _after(begins, 5), desk.notes("started_at", _clock(begins))
    if readings:
        yield from _cones(desk, readings, begins + PROLONGED_READ_AFTER, strokes=True)


def _rested(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    """The rest begins; a day later the cone is read in three cups."""
    readings = yield from _rest(desk, told, begins)
    yield from _cones(desk, readings, begins + RESTED_READ_AFTER, strokes=False)


def _reworked(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    """The rest begins; a day later the cup is worked 60 strokes and read at once."""
    readings = yield from _rest(desk, told, begins)
    yield from _cones(desk, readings, begins + REWORKED_READ_AFTER, strokes=True)


def _rest(desk: _Desk, told: str, begins: dt.datetime) -> Generator[Timed, None, str]:
    """Which worker the grease comes from, and since when it rests; gives back the readings told."""
    worker, _, readings = told.partition(": ")
    yield _after(begins, 120), desk.notes("worker", worker)
    yield _after(begins, 125), desk.notes("started_at", _clock(begins))
    return readings


def _dropping(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    yield begins, desk.notes("apparatus", "DP-01")
    for run, pair in enumerate(told.split(), 1):
        observed, block = pair.split("/")
        at = _after(begins, 600 * run)
        yield at, desk.reads(f"observed_{run}", observed)
        yield _after(at, 10), desk.reads(f"block_{run}", block)


def _oil(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    sample, oil = told.split()
    yield begins, desk.reads("sample", sample)
    yield _after(begins, 30), desk.reads("oil", oil)


def _copper(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    yield begins, desk.reads("strip_1", told)


def _oxidation(
    desk: _Desk, told: Mapping[str, Any], begins: dt.datetime
) -> Iterator[Timed]:
    """Vessels with their units, then readings by hour: {"0": ["760", "109.6"], "24": [...]}."""
    if told.get("add"):
        yield _after(begins, -60), lambda: add_oxidation(desk)
    for place, (vessel, unit) in enumerate(told["vessels"], 1):
        yield begins, desk.notes(f"vessel_{place}", vessel)
        yield _after(begins, 1), desk.notes(f"unit_{place}", unit)
    yield _after(begins, 2), desk.notes("started_at", _clock(begins))
    for hour, pressures in told["readings"].items():
        at = begins + dt.timedelta(hours=int(hour) or 5, minutes=1 if int(hour) else 0)
        slot = f"at_{hour}" if int(hour) else "maximum"
        for place, text in enumerate(pressures, 1):
            yield _after(at, place * 20), desk.reads(f"{slot}_{place}", text)


def _induction(desk: _Desk, told: str, begins: dt.datetime) -> Iterator[Timed]:
    """One run after another, "23.0 accepted | 24.3": its minutes, and what is said of its curve."""
    for number, run in enumerate(told.split(" | ")):
        at = begins + number * A_RUN
        minutes, _, answer = run.partition(" ")
        content = runs.run_of(float(minutes), slope=0.004, end=45)
        yield at, desk.reads_in(f"{desk.sample}-run-{number + 1}.csv", content)
        texts = {"calorimeter": "DSC-1", "temperature": "180", **runs.TIMES}
        for place, (key, text) in enumerate(texts.items(), 1):
            yield _after(at, place * 12), desk.notes(key, text)
        if answer:
            yield _after(at, 90), desk.judges(answer)


def add_oxidation(desk: _Desk) -> None:
    test = Test.objects.filter(sample__number=desk.sample).select_related("sample")[0]
    add_test(
        sample=test.sample,
        characteristic=methods.characteristic(desk.code),
        edition=methods.edition("ASTM D942", "19"),
        by=person(desk.tester),
    )


_TELLERS: dict[str, Callable[..., Iterator[Timed]]] = {
    "appearance": _appearance,
    "unworked": _unworked,
    "worked": _worked,
    "prolonged": _prolonged,
    "dropping": _dropping,
    "oil": _oil,
    "copper": _copper,
    "oxidation": _oxidation,
    "rested": _rested,
    "reworked": _reworked,
    "induction": _induction,
}
