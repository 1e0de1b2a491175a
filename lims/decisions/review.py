"""What a person sees before deciding on a fill lot, and the exact text that a signature is bound to."""

import hashlib
from dataclasses import dataclass, field
from itertools import chain as chained
from typing import Any

from lims.batches.models import FillLot, Retain, RetainException
from lims.bench.evaluation import allowed_of
from lims.bench.evaluation import held as held_on
from lims.bench.models import Condition, Determination, Reading, Test
from lims.decisions.grounds import NOTHING, Ground, Grounds, grounds_of
from lims.decisions.models import Decision
from lims.decisions.queries import release_of
from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Held, Line, held_of
from specs import chain


@dataclass(frozen=True)
class Change:
    """A reading or condition that was altered after it was first saved."""

    test: Test
    what: str
    old: Reading | Condition
    new: Reading | Condition


@dataclass(frozen=True)
class Review:
    """One fill lot with everything that was found out about it."""

    lot: FillLot
    held: tuple[Held, ...]
    tests: tuple[Test, ...]
    retains: tuple[Retain, ...]
    exception: RetainException | None
    changes: tuple[Change, ...]
    content: str
    release: Decision | None = None  # under which the lot stands
    grounds: Grounds = field(default_factory=dict)  # by requirement

    @property
    def seen(self) -> str:
        """The fingerprint of all that is shown; a decision names it."""
        return hashlib.sha256(self.content.encode()).hexdigest()

    @property
    def own(self) -> Held | None:
        return next((held for held in self.held if held.is_own), None)

    @property
    def set_aside(self) -> tuple[Determination, ...]:
        return tuple(
            determination
            for test in self.tests
            for determination in test.determinations.all()
            if determination.state == Determination.State.SET_ASIDE
        )

    @property
    def instruments(self) -> tuple[Condition, ...]:
        """Each instrument in use, once for each state that it was in."""
        uses = [
            condition
            for test in self.tests
            for determination in test.determinations.all()
            for condition in held_on(determination).conditions.values()
            if condition.instrument_id
        ]
        return tuple(
            {(use.instrument_id, use.instrument_state): use for use in uses}.values()
        )


def review_of(lot: FillLot) -> Review:
    """Everything there is to see, read in one go, and its canonical text."""
    tests = tuple(
        Test.objects.filter(sample__fill_lot=lot)
        .select_related("characteristic", "sample", "edition__method")
        .prefetch_related(
            "reported_values",
            "determinations__readings__saved_by",
            "determinations__readings__replaces",
            "determinations__conditions__instrument",
            "determinations__conditions__replaces",
            "determinations__conditions__saved_by",
            "determinations__conditions__allowed__allowed_by",
        )
    )
    held = held_of(lot)
    release = release_of(lot)
    grounds = grounds_of(
        chained.from_iterable(each.lines for each in held),
        stated_until=release.decided_at if release else None,
    )
    retains = tuple(
        Retain.objects.filter(sample__fill_lot=lot, sample__counts=True).select_related(
            "sample"
        )
    )
    exception = RetainException.objects.filter(fill_lot=lot).first()
    shown = {
        **_facts(lot, retains, exception),
        "held against": [_held(each, grounds) for each in held],
        "tests": [_test(test) for test in tests],
    }
    return Review(
        lot=lot,
        held=held,
        tests=tests,
        retains=retains,
        exception=exception,
        changes=tuple(_changes(tests)),
        release=release,
        grounds=grounds,
        content=chain.canonical(shown).decode(),
    )


def _facts(
    lot: FillLot,
    retains: tuple[Retain, ...],
    exception: RetainException | None,
) -> dict[str, Any]:
    return {
        "fill lot": lot.number,
        "state": lot.state,
        "version": lot.version,
        "packs": f"{lot.pack_count} x {lot.pack_kg} kg {lot.pack}",
        "retains": sorted(retain.place for retain in retains),
        "retain exception": exception.reason if exception else "",
    }


def _held(held: Held, grounds: Grounds) -> dict[str, Any]:
    return {
        "revision": str(held.revision),
        "lines": [
            _line(line, grounds.get(line.requirement.pk, NOTHING))
            for line in held.lines
        ],
    }


def _line(line: Line, ground: Ground) -> dict[str, Any]:
    requirement, result = line.requirement, line.result
    ruling = ruling_of(requirement)
    return {
        "line": requirement.line,
        "characteristic": requirement.characteristic.in_full,
        "limits": requirement.limits,
        "comparing": requirement.comparing,
        "rule": ruling.words if ruling else requirement.rule,
        "reported": result.reported if result else "",
        "reported by": result.rule if result else "",
        "constants": result.constants if result else "",
        "sets": result.determination_count if result else 0,
        "evidence": line.evidence,
        "from": result.lot.number if result else "",
        "verdict": str(line.verdict) if line.verdict else "",
        "why": line.why,
        "probability": str(ground.chance) if ground.chance else "",
        "from memory": list(ground.from_memory),
    }


def _test(test: Test) -> dict[str, Any]:
    return {
        "sample": test.sample.number,
        "characteristic": test.characteristic.code,
        "state": test.state,
        "determinations": [
            {
                "place": determination.place,
                "state": determination.state,
                "by rule": determination.by_rule,
                "reason": determination.reason,
                "reported": determination.reported,
                "says": determination.says,
                "readings": [
                    [r.slot, r.text, r.unit, r.saved_by.account, r.reason]
                    for r in determination.readings.all()
                ],
                "conditions": [
                    [c.key, c.text, c.instrument_state, c.reason]
                    for c in determination.conditions.all()
                ],
                "allowed uses": [
                    [c.text, c.instrument_state, it.reason, it.allowed_by.account]
                    for c in determination.conditions.all()
                    if (it := allowed_of(c)) is not None
                ],
            }
            for determination in test.determinations.all()
        ],
    }


def _changes(tests: tuple[Test, ...]) -> list[Change]:
    found = []
    for test in tests:
        for determination in test.determinations.all():
            rows: list[Reading | Condition] = [
                *determination.readings.all(),
                *determination.conditions.all(),
            ]
            for new in rows:
                if new.replaces is not None:
                    what = new.slot if isinstance(new, Reading) else new.key
                    found.append(Change(test, what, new.replaces, new))
    return sorted(found, key=lambda change: change.new.saved_at)
