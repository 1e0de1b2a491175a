"""Recording a check of an instrument."""

import datetime as dt

import pytest

from lims.instruments import actions
from lims.instruments.models import Instrument
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories.instruments import checked, in_service, instrument

TODAY = dt.date(2026, 3, 4)
NEXT = dt.date(2026, 4, 5)


def record(row, by, **change):
    given = {"done_on": TODAY, "due_on": NEXT, "found": "286.7", "is_fit": True}
    return actions.record_check(instrument=row, **(given | change), by=by)


def test_an_instrument_is_overdue_until_its_first_check(manager, technician):
    row = instrument(by=manager)
    assert row.state_on(TODAY) == "overdue"

    record(row, technician)

    row.refresh_from_db()
    assert row.state_on(TODAY) == "in service"
    assert row.due_on == NEXT
    assert Entry.objects.first().note == "286.7"


def test_it_may_be_used_on_the_day_it_is_due_and_not_the_day_after(manager):
    row = in_service(by=manager)
    day = row.due_on

    assert row.state_on(day) == "in service"
    assert row.state_on(day + dt.timedelta(days=1)) == "overdue"


def test_an_instrument_found_unfit_is_out_of_service(manager, technician):
    row = in_service(by=manager)

    check = record(
        row, technician, is_fit=False, due_on=None, found="296.0, wrong shaft"
    )

    row.refresh_from_db()
    assert row.state == Instrument.State.OUT_OF_SERVICE
    assert row.state_reason == "296.0, wrong shaft"
    assert check.due_on == TODAY


def test_an_older_check_entered_late_does_not_hide_a_newer_one(manager):
    row = checked(instrument(by=manager), by=manager, due_in_days=30)
    due_on = row.due_on

    record(row, manager, done_on=TODAY - dt.timedelta(days=9), due_on=TODAY)

    row.refresh_from_db()
    assert row.due_on == due_on


@pytest.mark.parametrize(
    ("field", "change", "sentence"),
    [
        ("done_on", {"done_on": dt.date(2026, 3, 5)}, "2026-03-05 is still to come"),
        ("due_on", {"due_on": None}, "Say when the next check is due"),
        ("due_on", {"due_on": TODAY}, "due after this one was done"),
        ("found", {"found": " "}, "Say what was found"),
        ("found", {"found": "x" * 201}, "shorten it to 200"),
    ],
)
def test_a_check_that_cannot_stand_is_refused(manager, field, change, sentence):
    row = instrument(by=manager)

    with pytest.raises(BadInput, match=sentence) as refused:
        record(row, manager, **change)

    assert refused.value.field == field
    assert not row.checks.exists()


def test_a_retired_instrument_is_not_checked(manager):
    row = instrument(by=manager)
    actions.retire(instrument=row, reason="worn out", by=manager)

    with pytest.raises(WrongMove, match="PEN-01 is retired"):
        record(row, manager)


def test_despatch_checks_no_instrument(manager, despatch):
    row = instrument(by=manager)

    with pytest.raises(NotAllowed, match="Checking instruments is for"):
        record(row, despatch)


def test_a_check_of_what_somebody_changed_is_refused(manager, technician):
    row = instrument(by=manager)
    seen = row.version
    record(Instrument.objects.get(pk=row.pk), technician)

    with pytest.raises(ChangedSince):
        record(row, manager, version=seen)

    assert row.checks.count() == 1
