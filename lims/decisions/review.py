"""What a person sees before deciding on a fill lot, and the exact text that a signature is bound to."""

import hashlib
from dataclasses import dataclass
from typing import Any

from lims.batches.models import FillLot, Retain, RetainException
from lims.bench.evaluation import held as held_on
from lims.bench.models import Condition, Determination, Reading, Test
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
        )
    )
    held = held_of(lot)
    retains = tuple(
        Retain.objects.filter(sample__fill_lot=lot, sample__counts=True).select_related(
            "sample"
        )
    )
    exception = RetainException.objects.filter(fill_lot=lot).first()
    content = chain.canonical(_content(lot, held, tests, retains, exception)).decode()
    return Review(lot, held, tests, retains, exception, tuple(_changes(tests)), content)


def _content(
    lot: FillLot,
    held: tuple[Held, ...],
    tests: tuple[Test, ...],
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
        "held against": [
            {
                "revision": str(each.revision),
                "lines": [_line(line) for line in each.lines],
            }
            for each in held
        ],
        "tests": [_test(test) for test in tests],
    }


def _line(line: Line) -> dict[str, Any]:
    requirement = line.requirement
    return {
        "line": requirement.line,
        "characteristic": requirement.characteristic.in_full,
        "limits": requirement.limits,
        "comparing": requirement.comparing,
        "rule": requirement.rule,
        "reported": line.result.reported if line.result else "",
        "evidence": line.evidence,
        "from": line.result.lot.number if line.result else "",
        "verdict": str(line.verdict) if line.verdict else "",
        "why": line.why,
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
