"""One test as its leaf on the page shows it: head, boxes, outcome, what was set aside."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lims.bench.evaluation import (
    allowed_of,
    conditions_of,
    doubted_uses,
    held,
    outcome_of,
    procedure_of,
    slots_of,
)
from lims.bench.models import Condition, Determination, Test, UseAllowed
from lims.instruments.models import Instrument
from lims.instruments.queries import Standing, with_state
from lims.people.models import Person
from lims.record.clock import now
from lims.screens.bench import boxes, finding, ruling, saying, sets, trace
from lims.screens.bench.finding import Asked
from lims.screens.bench.forms import AsideForm
from lims.screens.zone import zone
from specs.methods.oxidation import OXIDATION
from specs.methods.penetration import CONE_PENETRATION

State = Test.State
DONE = (State.REPORTED, State.AUTHORISED)
Refused = Mapping[str, boxes.Refused]  # by the code of the test


@dataclass(frozen=True)
class Leaf:
    """One test as its leaf shows it."""

    test: Test
    determination: Determination | None
    limits: str
    internal: str
    said: saying.Said
    conditions: list[boxes.Box]
    readings: list[boxes.Box]
    sets: list[sets.Line]
    times: list[tuple[str, str, dt.datetime]]
    is_timed: bool
    sources: str
    caution: str
    may_enter: bool
    may_set_aside: bool
    asks_fresh: bool
    set_number: int
    refused: bool = False
    aside_form: AsideForm | None = None
    curves: trace.Curves | None = None

    @property
    def code(self) -> str:
        return self.test.characteristic.code

    @property
    def is_done(self) -> bool:
        return self.test.state in DONE and not self.refused

    @property
    def wants_next(self) -> bool:
        """The next set is asked for and none is open yet."""
        return self.determination is None and self.test.asks != ""

    @property
    def doubts(self) -> list[tuple[Condition, UseAllowed | None]]:
        """The instruments not in service that the set was read on, each with who let it count."""
        uses = doubted_uses(held(self.determination))
        return [(use, allowed_of(use)) for use in uses]

    @property
    def is_at_fault(self) -> bool:
        """The readings are all there, and the set as it is gives no result."""
        it = self.determination
        return self.asks_fresh or (it is not None and it.is_complete and bool(it.bars))

    @property
    def is_to_be_seen(self) -> bool:
        """Both lines of a curve are drawn, and nobody has said yet whether it stands; or the curve gives none."""
        if self.curves is None or self.determination is None:
            return False
        return self.curve_waits or bool(self.determination.bars)

    @property
    def curve_waits(self) -> bool:
        """Both lines are drawn, and nobody has said yet whether the curve stands."""
        shown = self.curves.shown if self.curves is not None else ()
        return any(it.is_open and it.waits for it in shown)

    @property
    def is_table(self) -> bool:
        return self.test.characteristic.procedure == OXIDATION.name

    @property
    def afresh(self) -> str:
        """What follows when a set is put aside."""
        is_cone = self.test.characteristic.procedure == CONE_PENETRATION.name
        return "take a fresh fill" if is_cone else "begin a fresh run"

    @property
    def rows(self) -> list[tuple[str, list[boxes.Box]]]:
        """The readings as a table: a row a heading, a column a vessel."""
        found: dict[str, list[boxes.Box]] = {}
        for box in self.readings:
            found.setdefault(box.row, []).append(box)
        return list(found.items())

    @property
    def columns(self) -> list[str]:
        """Over each column its vessel, by the number on its plate when that is known."""
        named = {box.key.removeprefix("vessel_"): box.saved for box in self.conditions}
        seen = dict.fromkeys((box.column, box.unit) for box in self.readings)
        return [
            f"{named.get(column.split()[-1]) or column}, {unit} gauge"
            for column, unit in seen
        ]


@dataclass(frozen=True)
class Shared:
    """What every leaf of a page needs, asked for once."""

    asked: dict[int, Asked]
    last: saying.Last
    instruments: boxes.Instruments
    may_enter: bool
    names: dict[str, Test]
    checked: ruling.Checked


def leaf(
    test: Test,
    shared: Shared,
    refused: boxes.Refused | None = None,
    sent: sets.Sent | None = None,
) -> Leaf:
    determination, it = finding.current(test), test.characteristic
    before = finding.before(test, determination)
    asked = shared.asked.get(test.characteristic_id, Asked())
    entered = not it.is_derived
    may = shared.may_enter and entered
    own = asked.own
    return Leaf(
        test=test,
        determination=determination,
        limits=saying.words_of(own),
        internal=_internal(asked),
        said=saying.outcome(test, asked, shared.last, shared.checked),
        conditions=boxes.conditions(
            test, determination, shared.instruments, refused, before=before
        )
        if entered
        else [],
        readings=boxes.readings(test, determination, refused, before)
        if entered
        else [],
        sets=sets.lines(
            test, finding.sets(test), determination, may_enter=may, sent=sent
        ),
        times=_times(test, determination) if may else [],
        is_timed=_is_timed(test),
        sources=_sources(test, shared.names),
        caution=it.caution or procedure_of(it).caution,
        may_enter=may,
        may_set_aside=may and _may_be_set_aside(determination),
        asks_fresh=_asks_fresh(test, determination),
        set_number=boxes.place_of(determination, before),
        refused=bool(refused) or sent is not None,
        aside_form=sent.aside if sent and _is_of(sent, determination) else None,
        curves=trace.curves(
            test,
            finding.sets(test),
            determination,
            place=boxes.place_of(determination, before),
            may_enter=may,
            sent=sent,
        ),
    )


def _is_of(sent: sets.Sent, determination: Determination | None) -> bool:
    return determination is not None and sent.place == determination.place


def _may_be_set_aside(determination: Determination | None) -> bool:
    return (
        determination is not None
        and determination.state == Determination.State.BEGUN
        and (
            bool(determination.readings.all()) or held(determination).trace is not None
        )
    )


def _asks_fresh(test: Test, determination: Determination | None) -> bool:
    """The set itself is at fault: its readings lie too far apart."""
    if determination is None or not determination.value:
        return False
    if determination.state != Determination.State.BEGUN:
        return False
    if determination.is_complete and not determination.bars:
        return True  # else it would stand
    return not outcome_of(test.characteristic, held(determination)).accepted


def _is_timed(test: Test) -> bool:
    """Whether it matters when a reading was read."""
    return any(asked.kind == "time" for asked in conditions_of(test.characteristic))


def _times(
    test: Test, determination: Determination | None
) -> list[tuple[str, str, dt.datetime]]:
    if not _is_timed(test):
        return []
    has = held(determination).readings
    return [
        (slot.key, slot.label, has[slot.key].read_at)
        for slot in slots_of(test.characteristic)
        if slot.key in has
    ]


def _internal(asked: Asked) -> str:
    own = asked.own
    if own is None or not (own.internal_lower or own.internal_upper):
        return ""
    return f"internal {own.internal_lower or '…'} to {own.internal_upper or '…'}"


def _sources(test: Test, known: dict[str, Test]) -> str:
    """What a derived test is computed from, in words."""
    codes = test.characteristic.derived_from.values()
    names = [known[code].characteristic.in_full for code in codes if code in known]
    return f"Computed from: {'; '.join(names)}." if names else ""


def instruments_for(tests: Sequence[Test], by: Person) -> boxes.Instruments:
    """The instruments of the kinds that these tests use, those in service first."""
    kinds = {
        asked.instrument_kind
        for test in tests
        for asked in conditions_of(test.characteristic)
        if asked.instrument_kind
    }
    if not kinds:
        return {}
    found: dict[str, list[Standing]] = {kind: [] for kind in kinds}
    for row in with_state(on=now().astimezone(zone()).date()):
        if row.instrument.kind in kinds and row.state != Instrument.State.RETIRED:
            found[row.instrument.kind].append(row)
    last = finding.last_used(by)
    return {
        kind: boxes.Offer(
            sorted(rows, key=lambda row: not row.is_in_service), last.get(kind, "")
        )
        for kind, rows in found.items()
    }
