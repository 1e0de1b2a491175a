"""May I use this today? The list of instruments, grouped by their state."""

import datetime as dt

import pytest
from django.urls import reverse

from lims.instruments import actions
from lims.record import clock
from tests.factories import instruments

LIST = reverse("instruments:list")


def text_of(response):
    return response.content.decode()


def test_the_answer_counts_what_may_be_used_and_names_what_may_not(
    as_role, pen, unchecked
):
    page = text_of(as_role("technician").get(LIST))

    assert "1 of 2 instruments may be used" in page
    assert "PEN-02 is overdue." in page


def test_each_instrument_stands_under_its_state(as_role, keeper, pen, unchecked):
    gone = instruments.in_service(by=keeper, number="PEN-03")
    actions.retire(instrument=gone, reason="cone worn", by=keeper)
    actions.take_out_of_service(instrument=pen, reason="plunger sticks", by=keeper)

    page = text_of(as_role("auditor").get(LIST))

    heads = [
        page.index(f'id="h-{key}"') for key in ("overdue", "out-of-service", "retired")
    ]
    assert heads == sorted(heads)
    assert 'id="h-in-service"' not in page
    assert "plunger sticks" in page


def test_a_check_that_is_soon_due_is_named(as_role, keeper):
    row = instruments.instrument(by=keeper, number="W-2")
    instruments.checked(row, by=keeper, due_in_days=5)

    page = text_of(as_role("technician").get(LIST))

    assert "W-2 is to be checked within 14 days" in page


def test_the_day_after_the_check_ran_out_it_is_overdue(as_role, pen):
    client = as_role("technician")
    clock.set_to(clock.now() + dt.timedelta(days=31))

    page = text_of(client.get(reverse("instruments:one", args=["PEN-01"])))

    assert "No: overdue 1 day" in page


@pytest.mark.parametrize("role", ["technician", "auditor", "despatch"])
def test_who_keeps_no_instruments_is_offered_none_to_add(as_role, pen, role):
    assert reverse("instruments:new") not in text_of(as_role(role).get(LIST))


def test_an_empty_list_says_what_comes_first(as_role, plant):
    page = text_of(as_role("laboratory_manager").get(LIST))

    assert "No instrument is kept here yet" in page
    assert reverse("instruments:new") in page


def test_more_instruments_ask_no_more_queries(
    as_role, keeper, pen, django_assert_max_num_queries
):
    client = as_role("technician")
    for number in range(2, 12):
        instruments.in_service(by=keeper, number=f"OX-{number}", kind="oxygen vessel")

    with django_assert_max_num_queries(8):
        client.get(LIST)
