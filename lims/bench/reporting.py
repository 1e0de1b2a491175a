"""From accepted determinations to reported values, from reported values to derived ones, and from there to the state of the lot. Only actions call this, inside their entry."""

from lims.batches.models import FillLot, Sample
from lims.bench.evaluation import Held, evaluate, procedure_of
from lims.bench.models import Determination, ReportedValue, Test
from lims.people.models import Person
from lims.record.clock import now
from specs.methods.outcome import Outcome
from specs.numbers import Number

State = Test.State
Newest = dict[int, ReportedValue]  # the newest reported value of each test

ONE_DETERMINATION = "one accepted determination is the reported value"


def settle(
    determination: Determination, *, has: Held | None = None, by: Person
) -> Outcome:
    """Bring everything after a changed reading up to date: the determination, its test, what is derived from it, its lot. `has` is what the determination holds, where the caller knows."""
    outcome = evaluate(determination, has)
    determination.save()
    test = determination.test
    newest = _newest_of(test.sample)
    _settle_test(test, newest, by=by)
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


def _settle_test(test: Test, newest: Newest, *, by: Person) -> None:
    sets = list(test.determinations.all())
    accepted = next((s for s in sets if s.state == Determination.State.ACCEPTED), None)
    if accepted is not None:
        _report(
            test,
            newest,
            value=accepted.value,
            reported=accepted.reported,
            says=accepted.says,
            rule=ONE_DETERMINATION,
            sources=[accepted.pk],
            by=by,
        )
    else:
        _withdraw(test, newest, by=by)
    is_running = any(
        s.state == Determination.State.BEGUN and s.started_at and not s.is_complete
        for s in sets
    )
    _move(test, newest, otherwise=State.RUNNING if is_running else State.DUE)


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
        values = {role: _active(source, newest) for role, source in sources.items()}
        if len(values) == len(test.characteristic.derived_from) and all(
            values.values()
        ):
            _derive(test, newest, values=values, by=by)
        else:
            _withdraw(test, newest, by=by)
        _move(test, newest, otherwise=State.DUE)


def _derive(
    test: Test, newest: Newest, *, values: dict[str, ReportedValue | None], by: Person
) -> None:
    procedure = procedure_of(test.characteristic)
    if procedure.derive is None:
        return
    outcome = procedure.derive(
        {role: Number.stored(v.value) for role, v in values.items() if v},
        test.characteristic.parameters,
    )
    if not outcome.can_count or outcome.value is None or outcome.reported is None:
        _withdraw(test, newest, by=by)
        return
    _report(
        test,
        newest,
        value=outcome.value.canonical,
        reported=outcome.reported.canonical,
        says=outcome.says,
        rule="computed from the unrounded values of the tests named, rounded once",
        sources=[v.pk for v in values.values() if v],
        by=by,
    )


def _report(
    test: Test,
    newest: Newest,
    *,
    value: str,
    reported: str,
    says: str,
    rule: str,
    sources: list[int],
    by: Person,
) -> None:
    old = _active(test, newest)
    if old and (old.value, old.says, old.sources) == (value, says, sources):
        return
    row = ReportedValue(
        test=test,
        value=value,
        reported=reported,
        says=says[:300],
        rule=rule,
        sources=sources,
        reported_at=now(),
        reported_by=by,
        replaces=newest.get(test.pk),
    )
    row.save()
    newest[test.pk] = row


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


def _move(test: Test, newest: Newest, *, otherwise: State) -> None:
    """A test with a value is reported; one without is what `otherwise` says."""
    state = State.REPORTED if _active(test, newest) is not None else otherwise
    if test.state != state:
        test.state = state
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
