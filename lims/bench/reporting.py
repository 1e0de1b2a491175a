"""From accepted determinations to reported values, from reported values to derived ones, and from there to the state of the lot. Only actions call this, inside their entry."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from lims.batches.models import FillLot, Sample
from lims.bench.deriving import Derived, derived
from lims.bench.evaluation import (
    Held,
    evaluate,
    held,
    is_set_aside_by_hand,
    outcome_of,
)
from lims.bench.models import Determination, ReportedValue, Test
from lims.bench.repeating import Settled, settled_by
from lims.bench.results import figures_of_runs
from lims.methods.asked import Asked
from lims.methods.figures import Figure
from lims.methods.queries import asked_by
from lims.people.models import Person
from lims.record.clock import now
from specs.methods.outcome import Outcome

State = Test.State
Set = Determination.State
Newest = dict[int, ReportedValue]  # the newest reported value of each test

DERIVED = Settled(
    rule="computed from the unrounded values of the tests named, rounded once"
)


def settle(
    determination: Determination, *, has: Held | None = None, by: Person
) -> Outcome:
    """Bring everything after a changed reading up to date: the determination, its test, what is derived from it, its lot. `has` is what the determination holds, where the caller knows."""
    test = determination.test
    asked = asked_by(test.edition, test.characteristic)
    outcome = evaluate(determination, has or held(determination), asked)
    newest = _newest_of(test.sample)
    _settle_test(test, determination, newest, asked=asked, by=by)
    _settle_derived(test, newest, by=by)
    settle_lot(test.sample.fill_lot)
    return outcome


def active_value(test: Test) -> ReportedValue | None:
    """The newest reported value of a test, unless it was withdrawn."""
    newest = max(test.reported_values.all(), key=lambda v: v.pk, default=None)
    return None if newest is None or newest.is_withdrawn else newest


def _newest_of(sample: Sample) -> Newest:
    rows = ReportedValue.objects.filter(test__sample=sample).order_by("pk")
    return {row.test_id: row for row in rows}


def _active(test: Test, newest: Newest) -> ReportedValue | None:
    value = newest.get(test.pk)
    return None if value is None or value.is_withdrawn else value


def _settle_test(
    test: Test, changed: Determination, newest: Newest, *, asked: Asked, by: Person
) -> None:
    """Apply the rules of the edition to every set that can stand, those that a rule had set aside among them."""
    stored = test.determinations.all()
    sets = [changed if it.pk == changed.pk else it for it in stored]
    standing = [it for it in sets if it.by_rule or it.state == Set.ACCEPTED]
    settled = settled_by(asked, standing, rejected=_rejected(asked, sets))
    for each in sets:
        _save_as_ruled(each, settled, is_changed=each is changed)
    figures = _figures(asked, settled.figures or figures_of_runs(asked, changed))
    if settled.is_value:
        _report(test, newest, settled, figures=figures, by=by)
    else:
        _withdraw(test, newest, by=by)
    is_running = any(
        it.state == Set.BEGUN and it.started_at and not it.is_complete for it in sets
    )
    _move(
        test,
        newest,
        otherwise=State.RUNNING if is_running else State.DUE,
        asks=settled.asks,
        figures=[] if settled.is_value else figures,
    )


def _save_as_ruled(each: Determination, settled: Settled, *, is_changed: bool) -> None:
    """What the rule sets aside, and what it no longer does; what a person set aside is left alone."""
    before = (each.state, each.reason)
    if each.by_rule or each.state == Set.ACCEPTED:
        each.reason = settled.aside.get(each.pk, "")
        each.by_rule = each.reason != ""
        each.state = Set.SET_ASIDE if each.by_rule else Set.ACCEPTED
    if is_changed or before != (each.state, each.reason):
        each.save()


def _rejected(asked: Asked, sets: Sequence[Determination]) -> Determination | None:
    """A set that a person set aside because its readings lay too far apart, where the edition asks for more after that."""
    if not asked.confirms:
        return None
    candidates = (
        it for it in sets if is_set_aside_by_hand(it) and it.value and not it.bars
    )
    return next((it for it in candidates if _was_too_wide(it, asked)), None)


def _was_too_wide(it: Determination, asked: Asked) -> bool:
    if it.is_complete:
        return True  # else it would have been accepted
    return not outcome_of(asked.characteristic, held(it), asked).accepted


def _figures(asked: Asked, figures: Iterable[Figure]) -> list[dict[str, Any]]:
    """Each figure that decided, with the edition that states it."""
    edition = asked.edition
    if edition is None:
        return []
    whose = {"edition": str(edition), "edition_id": edition.pk}
    return [{**whose, **it.told} for it in dict.fromkeys(figures)]


def _settle_derived(changed: Test, newest: Newest, *, by: Person) -> None:
    """Compute what is derived on the sample of a changed test from the unrounded values of the sources."""
    tests = {
        t.characteristic.code: t
        for t in changed.sample.tests.select_related("characteristic")
    }
    for test in tests.values():
        if not test.characteristic.is_derived:
            continue
        sources = {
            role: tests[code]
            for role, code in test.characteristic.derived_from.items()
            if code in tests
        }
        values = {
            role: value
            for role, source in sources.items()
            if (value := _active(source, newest)) is not None
        }
        found = None
        if len(values) == len(test.characteristic.derived_from):
            found = derived(test, sources, values)
        _settle_one_derived(test, newest, found, values, by=by)


def _settle_one_derived(
    test: Test,
    newest: Newest,
    found: Derived | None,
    values: Mapping[str, ReportedValue],
    *,
    by: Person,
) -> None:
    """Report what was computed; else say on the test why it cannot count."""
    figures = _figures(found.asked, found.figures) if found and found.asked else []
    outcome = found.outcome if found is not None and found.is_value else None
    if outcome is None or outcome.value is None or outcome.reported is None:
        _withdraw(test, newest, by=by)
        asks = found.why_not if found is not None else ""
        _move(test, newest, otherwise=State.DUE, asks=asks, figures=figures)
        return
    settled = replace(
        DERIVED,
        value=outcome.value.canonical,
        reported=outcome.reported.canonical,
        says=outcome.says,
        sources=tuple(v.pk for v in values.values()),
    )
    _report(test, newest, settled, figures=figures, by=by)
    _move(test, newest, otherwise=State.DUE)


def _report(
    test: Test,
    newest: Newest,
    settled: Settled,
    *,
    figures: Sequence[dict[str, Any]] = (),
    by: Person,
) -> None:
    row = ReportedValue(
        test=test,
        value=settled.value,
        reported=settled.reported,
        says=settled.says,
        rule=settled.rule,
        constants=settled.constants,
        figures=list(figures),
        sources=list(settled.sources),
        reported_at=now(),
        reported_by=by,
        replaces=newest.get(test.pk),
    )
    old = _active(test, newest)
    if old and _content(old) == _content(row):
        return
    row.save()
    newest[test.pk] = row


def _content(row: ReportedValue) -> tuple[object, ...]:
    """What a reported value says; the same again is not written again."""
    return row.value, row.reported, row.says, row.rule, row.sources, row.figures


def _withdraw(test: Test, newest: Newest, *, by: Person) -> None:
    """A value whose determination no longer stands is withdrawn by a row that says so."""
    old = _active(test, newest)
    if old is None:
        return
    row = ReportedValue(
        test=test,
        value="",
        reported="",
        says="withdrawn: what it rested on no longer stands",
        rule=old.rule,
        sources=old.sources,
        reported_at=now(),
        reported_by=by,
        replaces=old,
        is_withdrawn=True,
    )
    row.save()
    newest[test.pk] = row


def _move(
    test: Test,
    newest: Newest,
    *,
    otherwise: State,
    asks: str = "",
    figures: Sequence[dict[str, Any]] = (),
) -> None:
    """A test with a value is reported; one without is what `otherwise` says, and what is asked for further stands on it."""
    state = State.REPORTED if _active(test, newest) is not None else otherwise
    told = (state, asks, list(figures))
    if (test.state, test.asks, test.figures) != told:
        test.state, test.asks, test.figures = told
        test.save()


def settle_lot(lot: FillLot | None) -> None:
    """A lot awaits its decision when every required test of its counting samples is reported."""
    if lot is None or lot.state not in (
        FillLot.State.ON_TEST,
        FillLot.State.AWAITING_DECISION,
    ):
        return
    state = state_by_tests(lot)
    if lot.state != state:
        lot.state, lot.state_since = state, now()
        lot.save()


def state_by_tests(lot: FillLot) -> FillLot.State:
    required = Test.objects.filter(
        sample__fill_lot=lot, sample__counts=True, is_required=True
    )
    states = set(required.order_by().values_list("state", flat=True).distinct())
    is_done = bool(states) and states <= {State.REPORTED, State.AUTHORISED}
    return FillLot.State.AWAITING_DECISION if is_done else FillLot.State.ON_TEST
