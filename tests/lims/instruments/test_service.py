"""Adding an instrument, taking it out of service, putting it back, retiring it."""

import datetime as dt

import pytest

from lims.instruments import actions
from lims.instruments.models import Instrument
from lims.record import clock
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories.instruments import checked, in_service, instrument


def test_an_instrument_is_added_under_the_number_of_its_plate(manager):
    row = instrument(by=manager, number=" PEN-07 ")

    assert row.number == "PEN-07"
    assert Entry.objects.first().about_name == "penetrometer PEN-07"


def test_a_number_is_used_once(manager):
    instrument(by=manager)

    with pytest.raises(
        BadInput, match="The instrument PEN-01 stands here already"
    ) as refused:
        instrument(by=manager)

    assert refused.value.field == "number"


@pytest.mark.parametrize("field", ["number", "kind"])
def test_an_instrument_has_a_number_and_a_kind(manager, field):
    with pytest.raises(BadInput, match=f"The {field} is missing"):
        instrument(by=manager, **{field: ""})


def test_a_technician_adds_takes_out_puts_back_and_retires_nothing(manager, technician):
    row = in_service(by=manager)

    with pytest.raises(NotAllowed):
        instrument(by=technician, number="PEN-02")
    for act in (actions.take_out_of_service, actions.put_back, actions.retire):
        with pytest.raises(NotAllowed):
            act(instrument=row, reason="why not", by=technician)


def test_it_is_taken_out_with_a_reason(manager):
    row = in_service(by=manager)

    actions.take_out_of_service(instrument=row, reason=" cone bent ", by=manager)

    row.refresh_from_db()
    assert (row.state, row.state_reason) == ("out of service", "cone bent")
    assert Entry.objects.first().reason == "cone bent"


def test_what_is_out_is_not_taken_out_again(manager):
    row = in_service(by=manager)
    actions.take_out_of_service(instrument=row, reason="cone bent", by=manager)

    with pytest.raises(WrongMove, match="out of service already: cone bent"):
        actions.take_out_of_service(instrument=row, reason="again", by=manager)


def test_it_comes_back_after_a_check_that_found_it_fit(manager):
    row = in_service(by=manager)
    checked(row, by=manager, is_fit=False)
    checked(row, by=manager)

    actions.put_back(instrument=row, reason="right shaft fitted", by=manager)

    row.refresh_from_db()
    assert row.state == Instrument.State.IN_SERVICE


def test_it_does_not_come_back_on_the_check_that_found_it_unfit(manager):
    row = in_service(by=manager)
    checked(row, by=manager, is_fit=False)

    with pytest.raises(WrongMove, match="comes back only after a check"):
        actions.put_back(instrument=row, reason="looks well", by=manager)


def test_it_does_not_come_back_when_its_check_is_out_of_date(manager):
    row = in_service(by=manager)
    actions.take_out_of_service(instrument=row, reason="cleaning", by=manager)

    with (
        clock.frozen(dt.datetime(2026, 4, 5, 12, tzinfo=dt.UTC)),
        pytest.raises(WrongMove, match="comes back only after a check"),
    ):
        actions.put_back(instrument=row, reason="clean", by=manager)


def test_what_is_in_service_is_not_put_back(manager):
    with pytest.raises(WrongMove, match="PEN-01 is in service already"):
        actions.put_back(instrument=in_service(by=manager), reason="x", by=manager)


def test_a_retired_instrument_stays_so(manager):
    row = in_service(by=manager)
    actions.retire(instrument=row, reason="replaced by PEN-02", by=manager)

    for act in (actions.take_out_of_service, actions.put_back, actions.retire):
        with pytest.raises(WrongMove, match="PEN-01 is retired"):
            act(instrument=row, reason="after all", by=manager)


@pytest.mark.parametrize("reason", ["", "  ", "a\x00b", "x" * 201])
def test_each_move_says_why(manager, reason):
    row = in_service(by=manager)

    for act in (actions.take_out_of_service, actions.retire):
        with pytest.raises(BadInput) as refused:
            act(instrument=row, reason=reason, by=manager)
        assert refused.value.field == "reason"
