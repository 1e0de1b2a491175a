"""Which instruments may be used on a day, and in what state each is."""

import datetime as dt

from lims.instruments import actions, queries
from tests.factories.instruments import checked, in_service, instrument

TODAY = dt.date(2026, 3, 4)


def test_only_those_in_service_and_in_date_are_offered(manager):
    in_service(by=manager, number="PEN-01")
    instrument(by=manager, number="PEN-02")
    actions.take_out_of_service(
        instrument=in_service(by=manager, number="PEN-03"), reason="bent", by=manager
    )
    in_service(by=manager, number="TH-14", kind="thermometer")

    found = queries.in_service(kind="penetrometer", on=TODAY)

    assert [row.number for row in found] == ["PEN-01"]


def test_none_is_offered_after_its_check_ran_out(manager):
    row = in_service(by=manager)

    after = row.due_on + dt.timedelta(days=1)

    assert list(queries.in_service(kind="penetrometer", on=row.due_on)) == [row]
    assert not queries.in_service(kind="penetrometer", on=after).exists()


def test_those_of_a_kind_stand_with_their_state_and_the_usable_first(manager):
    instrument(by=manager, number="PEN-01")
    in_service(by=manager, number="PEN-02")
    actions.retire(
        instrument=in_service(by=manager, number="PEN-03"), reason="old", by=manager
    )

    found = queries.of_kind("penetrometer", on=TODAY)

    assert [(row.instrument.number, row.state) for row in found] == [
        ("PEN-02", "in service"),
        ("PEN-01", "overdue"),
    ]


def test_the_list_takes_as_many_queries_for_many_as_for_one(
    manager, django_assert_num_queries
):
    for number in range(1, 4):
        row = in_service(by=manager, number=f"PEN-0{number}")
        checked(row, by=manager, is_fit=False)

    with django_assert_num_queries(2):
        found = queries.with_state(on=TODAY)
        assert [row.latest.recorded_by for row in found] == [manager] * 3

    assert {row.state for row in found} == {"out of service"}


def test_an_instrument_is_found_by_its_number(manager):
    row = instrument(by=manager)

    assert queries.instrument("PEN-01") == row


def test_the_state_is_told_in_words(manager):
    never = instrument(by=manager, number="PEN-02")
    row = in_service(by=manager)

    def words(days):
        return queries.state_in_words(row, row.due_on + dt.timedelta(days=days))

    assert words(0) == "in service, next check by 2026-04-03"
    assert words(1) == "overdue 1 day"
    assert words(2) == "overdue 2 days"
    assert queries.state_in_words(never, TODAY) == "overdue, never checked"
    actions.take_out_of_service(instrument=row, reason="bent", by=manager)
    assert words(0) == "out of service: bent"
