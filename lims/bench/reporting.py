"""From accepted determinations to reported values, from reported values to derived ones, and from there to the state of the lot. Only actions call this, inside their entry."""

from lims.batches.models import FillLot, Sample
from lims.bench.evaluation import evaluate, procedure_of
from lims.bench.models import Determination, ReportedValue, Test
from lims.people.models import Person
from lims.record.clock import now
from specs.methods.outcome import Outcome
from specs.numbers import Number

ONE_DETERMINATION = "one accepted determination is the reported value"


def settle(determination: Determination, *, by: Person) -> Outcome:
    """Bring everything after a changed reading up to date: the determination, its test, what is derived from it, its lot."""
    outcome = evaluate(determination)
    determination.save()
    settle_test(determination.test, by=by)
    settle_derived(determination.test.sample, by=by)
    settle_lot(determination.test.sample.fill_lot)
    return outcome


def active_value(test: Test) -> ReportedValue | None:
    """The newest reported value of a test, unless it was withdrawn."""
    newest = max(test.reported_values.all(), key=lambda v: v.pk, default=None)
    return None if newest is None or newest.is_withdrawn else newest


def settle_test(test: Test, *, by: Person) -> None:
    accepted = test.determinations.filter(state=Determination.State.ACCEPTED).first()
    if accepted is not None:
        _report(
            test,
            value=accepted.value,
            reported=accepted.reported,
            says=accepted.says,
            rule=ONE_DETERMINATION,
            sources=[accepted.pk],
            by=by,
        )
    else:
        _withdraw(test, by=by)
    _move(test)


def settle_derived(sample: Sample, *, by: Person) -> None:
    """Compute the derived characteristics of a sample from the unrounded values of their sources."""
    tests = {
        t.characteristic.code: t for t in sample.tests.select_related("characteristic")
    }
    for test in tests.values():
        if not test.characteristic.is_derived:
            continue
        sources = {
            role: tests[code]
            for role, code in test.characteristic.derived_from.items()
            if code in tests
        }
        values = {role: active_value(source) for role, source in sources.items()}
        if len(values) == len(test.characteristic.derived_from) and all(
            values.values()
        ):
            _derive(test, values=values, by=by)
        else:
            _withdraw(test, by=by)
        _move(test)


def _derive(test: Test, *, values: dict[str, ReportedValue | None], by: Person) -> None:
    procedure = procedure_of(test.characteristic)
    if procedure.derive is None:
        return
    outcome = procedure.derive(
        {role: Number.stored(v.value) for role, v in values.items() if v},
        test.characteristic.parameters,
    )
    if not outcome.can_count or outcome.value is None or outcome.reported is None:
        _withdraw(test, by=by)
        return
    _report(
        test,
        value=outcome.value.canonical,
        reported=outcome.reported.canonical,
        says=outcome.says,
        rule="computed from the unrounded values of the tests named, rounded once",
        sources=[v.pk for v in values.values() if v],
        by=by,
    )


def _report(
    test: Test,
    *,
    value: str,
    reported: str,
    says: str,
    rule: str,
    sources: list[int],
    by: Person,
) -> None:
    old = active_value(test)
    if old and (old.value, old.says, old.sources) == (value, says, sources):
        return
    ReportedValue(
        test=test,
        value=value,
        reported=reported,
        says=says[:300],
        rule=rule,
        sources=sources,
        reported_at=now(),
        reported_by=by,
        replaces=_newest(test),
    ).save()


def _withdraw(test: Test, *, by: Person) -> None:
    """A value whose determination no longer stands is withdrawn by a row that says so."""
    old = active_value(test)
    if old is None:
        return
    ReportedValue(
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
    ).save()


def _newest(test: Test) -> ReportedValue | None:
    return test.reported_values.order_by("-pk").first()


def _move(test: Test) -> None:
    state = _state(test)
    if test.state != state:
        test.state = state
        test.save()


def _state(test: Test) -> str:
    if active_value(test) is not None:
        return Test.State.REPORTED
    begun = test.determinations.filter(state=Determination.State.BEGUN)
    if begun.filter(started_at__isnull=False, is_complete=False).exists():
        return Test.State.RUNNING
    return Test.State.DUE


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
    is_done = (
        required.exists()
        and not required.exclude(
            state__in=(Test.State.REPORTED, Test.State.AUTHORISED)
        ).exists()
    )
    return FillLot.State.AWAITING_DECISION if is_done else FillLot.State.ON_TEST
