"""A check tells of the day on which it was done, however late it was recorded."""

import datetime as dt

from lims.instruments import actions
from lims.instruments.failures import failures_of
from lims.people.days import today
from lims.record import clock
from tests.factories.instruments import in_service


def later():
    clock.set_to(clock.now() + dt.timedelta(days=1))


def check(row, by, *, done_on, is_fit):
    return actions.record_check(
        instrument=row,
        done_on=done_on,
        due_on=done_on + dt.timedelta(days=60) if is_fit else None,
        found="zero and timer",
        is_fit=is_fit,
        by=by,
    )


def test_a_check_that_is_recorded_late_tells_of_the_day_it_was_done(
    manager, technician
):
    row = in_service(by=manager)
    done = today()
    later()
    later()
    late = check(row, technician, done_on=done, is_fit=True)
    check(row, technician, done_on=today(), is_fit=False)

    (failure,) = failures_of(row)

    assert failure.before.key == f"c{late.pk}"
    assert failure.before.since < late.recorded_at
    assert failure.before.since.date() <= done


def test_a_check_that_brings_it_back_on_the_same_day_is_not_before_the_failure(
    manager, technician
):
    row = in_service(by=manager)
    first = row.checks.get()
    later()
    check(row, technician, done_on=today(), is_fit=False)
    check(row, technician, done_on=today(), is_fit=True)

    (failure,) = failures_of(row)

    assert failure.before.key == f"c{first.pk}"
