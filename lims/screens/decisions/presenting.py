"""The review of one fill lot as the page shows it: facts, requirements by their evidence, instruments, changes, other specifications."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any
from zoneinfo import ZoneInfo

from lims.batches.models import FillLot
from lims.bench.evaluation import allowed_of, conditions_of, slots_of
from lims.bench.evaluation import held as held_on
from lims.bench.models import Condition, Reading, Test, UseAllowed
from lims.decisions.evidence import ON_BATCH, ON_LOT, PERIODIC
from lims.decisions.models import Decision
from lims.decisions.queries import last_values
from lims.decisions.review import Change, Review
from lims.decisions.verdicts import Line
from lims.instruments.models import Check, Instrument
from lims.products.models import Requirement
from lims.screens.decisions import words
from lims.screens.decisions.lines import Frozen, Row, row_of
from lims.screens.decisions.on_limits import is_numeric
from lims.screens.decisions.others import others
from lims.screens.decisions.sets import Unfolded, condition_text, unfolded
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import unit_shown

NONE = ""
CANNOT_COUNT = set(Instrument.State) - {Instrument.State.IN_SERVICE}
GROUPS = (
    (ON_LOT, "Tested on this lot", ""),
    (ON_BATCH, "Tested on this batch", "by another fill lot of it"),
    (PERIODIC, "Periodic", "tested on an earlier batch, within its period"),
    (NONE, "Without a result", "not tested, or read and unable to count"),
)


@dataclass(frozen=True)
class Shown:
    """A row with what was read for it."""

    row: Row
    tests: tuple[Unfolded, ...]


@dataclass
class Group:
    """The requirements that rest on one class of evidence."""

    title: str
    note: str
    shown: list[Shown] = field(default_factory=list)


@dataclass
class Used:
    """An instrument, its state when it was used, the last check before, what it was used for."""

    instrument: Instrument
    state: str
    at: dt.datetime
    tests: dict[str, None]
    check: Check | None = None
    allowed: list[UseAllowed] = field(default_factory=list)


@dataclass(frozen=True)
class Altered:
    """One reading or condition that was changed after it was saved."""

    at: dt.datetime
    what: str
    old: str
    new: str
    reason: str
    who: str
    could_not_count: str  # the state of an instrument that was exchanged for another


@dataclass(frozen=True)
class Signed:
    """A decision as it was signed."""

    decision: Decision
    at: str


def page(review: Review) -> dict[str, Any]:
    """Everything of the review page but the panel for signing."""
    lot, own = review.lot, review.own
    last = last_values(lot)
    release = review.release
    frozen: Frozen = (
        {v.requirement_id: v for v in release.verdicts.all()} if release else {}
    )
    lines = own.lines if own else ()
    rows = [
        row_of(line, last, frozen, review.grounds)
        for line in lines
        if not _is_typical(line)
    ]
    return {
        "lot": lot,
        "review": review,
        "own": own,
        "rows": rows,
        "answer": words.answer(own.revision if own else None, rows, review),
        "packs": words.packs(lot),
        "rules": _rules(rows),
        "has_zone": any(row.rule for row in rows),
        "groups": groups(lines, rows, review.tests),
        "also": also_tested(lines, review.tests),
        "typical": [line.requirement for line in lines if _is_typical(line)],
        "instruments": instruments(review.tests),
        "changes": [_altered(change) for change in review.changes],
        "others": others(review, last, frozen),
        "signed": signed(lot),
    }


def _is_typical(line: Line) -> bool:
    return line.requirement.kind == Requirement.Kind.TYPICAL


def _rules(rows: Iterable[Row]) -> str:
    """`simple acceptance, rounded value`: what the limits of the revision name."""
    how = {"rounding": "rounded value", "absolute": "unrounded value"}
    found = {
        f"{row.requirement.rule}, {how[row.requirement.comparing]}": None
        for row in rows
        if row.requirement.rule and is_numeric(row.requirement.characteristic)
    }
    return "; ".join(found)


def groups(
    lines: Iterable[Line], rows: Iterable[Row], tests: tuple[Test, ...]
) -> list[Group]:
    """The rows under the evidence that they rest on."""
    found = {evidence: Group(title, note) for evidence, title, note in GROUPS if title}
    named = {line.requirement.characteristic.code for line in lines}
    for row in rows:
        shown = Shown(row, tuple(_unfold(row.requirement, tests, named)))
        found[row.evidence].shown.append(shown)
    return [group for group in found.values() if group.shown]


def _unfold(
    requirement: Requirement, tests: tuple[Test, ...], named: set[str]
) -> list[Unfolded]:
    """The sets of a row's own test, and of the tests that only feed a computed one."""
    characteristic = requirement.characteristic
    codes = {characteristic.code} | (
        set(characteristic.derived_from.values()) - named
        if characteristic.derived_from
        else set()
    )
    found = [
        unfolded(test, requirement)
        for test in tests
        if test.characteristic.code in codes and test.sample.counts
    ]
    return [each for each in found if each is not None]


def also_tested(lines: Iterable[Line], tests: tuple[Test, ...]) -> list[Unfolded]:
    """What was read on this lot although no line of its revision asks for it, or on a sample that cannot count."""
    named: set[str] = set()
    for line in lines:
        characteristic = line.requirement.characteristic
        named |= {characteristic.code, *characteristic.derived_from.values()}
    found = [
        unfolded(test, None)
        for test in tests
        if test.characteristic.code not in named or not test.sample.counts
    ]
    return [each for each in found if each is not None]


def instruments(tests: Iterable[Test]) -> list[Used]:
    """Each instrument once for each state that it was in, with its last check before that use."""
    found: dict[tuple[int, str], Used] = {}
    for test in tests:
        for determination in test.determinations.all():
            for use in held_on(determination).conditions.values():
                if use.instrument is not None:
                    _add_use(found, use.instrument, use, test)
    checks = list(
        Check.objects.filter(instrument__in={pk for pk, _ in found}).order_by(
            "-done_on", "-id"
        )
    )
    for used in found.values():
        day = dates.local_day(used.at, zone())
        used.check = next(
            (
                check
                for check in checks
                if check.instrument_id == used.instrument.pk and check.done_on <= day
            ),
            None,
        )
    return list(found.values())


def _add_use(
    found: dict[tuple[int, str], Used],
    instrument: Instrument,
    use: Condition,
    test: Test,
) -> None:
    used = found.setdefault(
        (instrument.pk, use.instrument_state),
        Used(instrument, use.instrument_state, use.saved_at, {}),
    )
    used.at = min(used.at, use.saved_at)
    if (allowed := allowed_of(use)) is not None:
        used.allowed.append(allowed)
    used.tests[test.characteristic.name.lower()] = None


def _altered(change: Change) -> Altered:
    characteristic = change.test.characteristic
    labels = {slot.key: slot.label for slot in slots_of(characteristic)}
    kinds = {asked.key: asked for asked in conditions_of(characteristic)}
    labels |= {key: asked.label for key, asked in kinds.items()}
    label = labels.get(change.what, change.what)

    def text(row: Reading | Condition) -> str:
        if isinstance(row, Reading):
            return f"{row.text} {unit_shown(row.unit)}".strip()
        asked = kinds.get(row.key)
        return condition_text(row, asked.kind if asked else "")

    return Altered(
        at=change.new.saved_at,
        what=f"{characteristic.name}, set {change.new.determination.place}, {label}",
        old=text(change.old),
        new=text(change.new),
        reason=change.new.reason,
        who=change.new.saved_by.name,
        could_not_count=_exchanged_from(change),
    )


def _exchanged_from(change: Change) -> str:
    """The state of the instrument first noted, if it could not count and another took its place."""
    old, new = change.old, change.new
    if not (isinstance(old, Condition) and isinstance(new, Condition)):
        return ""
    could_not = old.instrument_state in CANNOT_COUNT
    is_another = old.instrument_id != new.instrument_id
    return old.instrument_state if could_not and is_another else ""


def signed(lot: FillLot) -> list[Signed]:
    """Every decision on a lot, the latest first, with its time in the zone of its signing."""
    decisions = lot.decisions.select_related("signature", "decided_by")
    return [
        Signed(
            decision,
            dates.day_time(
                decision.signature.at, ZoneInfo(decision.signature.zone), seconds=True
            ),
        )
        for decision in decisions
    ]
