"""Reading in the curve of a run, and saying of it whether it stands. The file is kept as received; a second one needs a reason."""

from pathlib import PurePath

from lims.bench import rules, traces, typed
from lims.bench.actions.entering import set_of
from lims.bench.evaluation import (
    conditions_of,
    held,
    picture_of,
    procedure_of,
    stands,
)
from lims.bench.models import Condition, Determination, Test, Trace
from lims.bench.reporting import settle
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.clock import now
from lims.record.gate import entry
from lims.record.refusals import BadInput, ChangedSince, WrongMove
from specs.methods.induction import ACCEPTED
from specs.methods.outcome import Condition as Asked

LONGEST_NAME = 120
OTHER_PICTURE = "given for another curve or other lines"


def import_trace(
    *,
    test: Test,
    name: str,
    content: bytes,
    reason: str = "",
    determination: Determination | None = None,
    by: Person,
) -> Determination:
    """Keep the curve of a run: of the set named, else of the one that is open. What was said of an older curve no longer stands."""
    _check_may_enter(test, by)
    rules.check_reason_fits(reason, field="reason")
    points, digest = traces.read(content), traces.print_of(content)
    with entry(by=by, verb="trace_imported", about=test) as record:
        test = rules.again(test)
        determination = set_of(test, determination, by=by)
        has = held(determination)
        old = has.trace
        if old is not None and old.sha256 == digest:
            raise BadInput(
                f"This curve is kept for the run already, as {old.name}: choose the file "
                "of another run, or leave it.",
                field=traces.FIELD,
            )
        if old is not None:
            rules.check_reason(old=old.name, reason=reason, field="reason")
            record.verb, record.reason = "trace_replaced", reason.strip()
        row = Trace(
            determination=determination,
            name=named(name),
            sha256=digest,
            block=traces.packed(content),
            count=len(points),
            saved_at=now(),
            saved_by=by,
            replaces=old,
            reason=reason.strip() if old else "",
        )
        row.save()
        settle(determination, has=has.having(row), by=by)
    return determination


def judge_curve(
    *,
    determination: Determination,
    answer: str,
    seen: str,
    reason: str = "",
    by: Person,
) -> Determination:
    """Say of the curve that was seen, `seen` being its print, whether it stands; the same said again changes nothing."""
    test = determination.test
    _check_may_enter(test, by)
    rules.check_reason_fits(reason, field="reason")
    asked = _asked_of_curve(test)
    if answer not in asked.choices:
        raise BadInput(
            f"Say of the curve: {' or '.join(asked.choices)}.", field=asked.key
        )
    said = held(determination).conditions.get(asked.key)
    if said is not None and (said.text, said.value) == (answer, seen):
        return determination
    with entry(by=by, verb="curve_judged", about=test) as record:
        test = rules.again(test)
        determination = set_of(test, determination, by=by)
        has = held(determination)
        _check_was_seen(
            determination, answer, seen, picture_of(test.characteristic, has)
        )
        old = has.conditions.get(asked.key)
        record.reason = _reason(asked, old, seen, reason)
        row = Condition(
            determination=determination,
            key=asked.key,
            text=answer,
            value=seen,
            saved_at=now(),
            saved_by=by,
            replaces=old,
            reason=record.reason,
        )
        row.save()
        settle(determination, has=has.having(row), by=by)
    return determination


def named(name: str) -> str:
    """The file's own name: no folders, no control characters, never empty."""
    line = " ".join(typed.plain(name).split())
    last = PurePath(line.replace("\\", "/")).name
    return last[-LONGEST_NAME:] if last.strip(". ") else "curve.csv"


def _check_may_enter(test: Test, by: Person) -> None:
    check(by, Permission.RECORD_READINGS)
    rules.check_takes_readings(test.sample)
    if not procedure_of(test.characteristic).takes_trace:
        raise WrongMove(
            f"{test.characteristic} is not worked out from a curve: type its readings."
        )


def _asked_of_curve(test: Test) -> Asked:
    return next(it for it in conditions_of(test.characteristic) if it.of_curve)


def _check_was_seen(
    determination: Determination, answer: str, seen: str, drawn: str
) -> None:
    """Nobody accepts what is not drawn, nor what was drawn otherwise a moment ago."""
    if not drawn:
        raise WrongMove("No curve is read in yet: choose its file first.")
    if seen != drawn:
        raise ChangedSince(
            "The curve or its lines have changed since you saw them. Look at the curve "
            "as it is drawn now, then say whether it stands."
        )
    if answer == ACCEPTED and not determination.parts:
        raise WrongMove(
            "No lines are drawn yet: give the times of the baseline and when oxygen was "
            "admitted, look at both lines, then accept the curve."
        )


def _reason(asked: Asked, old: Condition | None, seen: str, reason: str) -> str:
    """A changed mind needs a reason; another picture is one."""
    if old is None:
        return ""
    if not stands(asked, old, seen):
        return reason.strip() or OTHER_PICTURE
    rules.check_reason(old=old.text, reason=reason, field="reason")
    return reason.strip()
