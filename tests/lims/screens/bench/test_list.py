"""The bench list and the way from a code to its sample."""

import datetime as dt

import pytest
from django.urls import reverse

from lims.bench.actions.samples import receive_sample
from lims.record import clock
from tests.lims.screens.bench.conftest import MORNING_AFTER
from tests.lims.screens.bench.walking import conditions, cones, told

LIST = "/bench/"


@pytest.fixture
def kettle_sample(batch, technician):
    clock.set_to(MORNING_AFTER)
    return receive_sample(
        batch=batch,
        place="kettle",
        taken_at=MORNING_AFTER,
        taken_by="operator",
        by=technician,
    )


def test_an_empty_bench_says_what_it_is_and_where_to_go(bench, lab):
    page = told(bench.get(LIST))

    assert "No test is due." in page
    assert "Nothing waits at the bench" in page


def test_the_list_counts_tests_that_are_entered_and_none_that_is_computed(
    bench, sample
):
    page = told(bench.get(LIST))

    assert "6 tests are due on 1 sample." in page
    assert "change of penetration" not in page.casefold()


def test_a_waiting_kettle_stands_first_whatever_is_late(bench, sample, kettle_sample):
    clock.set_to(MORNING_AFTER + dt.timedelta(hours=8))

    page = told(bench.get(LIST))

    assert "A kettle waits." in page
    assert page.index(kettle_sample.number) < page.index(sample.number)
    assert "late" in page


def test_what_is_wanted_later_and_on_another_day_has_its_own_section(bench, sample):
    early = told(bench.get(LIST))
    clock.set_to(MORNING_AFTER - dt.timedelta(hours=12))
    evening = told(bench.get(LIST))

    assert "Later today" in early
    assert "Due now" not in early
    assert "Thu 5 March" in evening


def test_a_run_shows_how_far_it_is_and_is_due_when_it_has_ended(bench, sample):
    code = "prolonged-penetration-100000"
    conditions(bench, sample, code, worker="W-2", started_at="07:30")
    clock.set_to(MORNING_AFTER + dt.timedelta(hours=14))
    halfway = told(bench.get(LIST))
    clock.set_to(MORNING_AFTER + dt.timedelta(hours=30))
    over = told(bench.get(LIST))

    assert "50\u00a0400 of 100\u00a0000 strokes" in halfway
    assert "ends" in halfway
    assert "Fri 6 March 11:16" in halfway
    assert "the run has ended, read it now" in over


def test_reported_tests_are_folded_with_their_values(bench, sample):
    conditions(
        bench, sample, "unworked-penetration", penetrometer="PEN-01", temperature="25"
    )
    cones(bench, sample, "unworked-penetration", "272", "274", "275")

    page = told(bench.get(LIST))

    assert "1 reported or running" in page
    assert "Unworked penetration, 25 °C 274" in page


@pytest.mark.parametrize("code", ["Q1-26-0417-A-01", "q1-26-0417 a", "Q1-26-0417-A"])
def test_a_code_that_is_scanned_opens_its_sample(bench, sample, code):
    answer = bench.get(reverse("bench:open"), {"code": code})

    assert answer.status_code == 302
    assert answer["Location"] == "/bench/samples/Q1-26-0417-A-01/"


def test_an_unknown_code_is_kept_and_told(bench, sample):
    page = bench.get(reverse("bench:open"), {"code": "Q1-26-9999"})

    assert page.status_code == 404
    assert "“Q1-26-9999” is known here" in told(page)
    assert 'value="Q1-26-9999"' in told(page)


def test_the_list_asks_the_same_number_of_queries_for_more_samples(
    bench, sample, technician, django_assert_max_num_queries
):
    with django_assert_max_num_queries(40) as few:
        bench.get(LIST)
    for minutes in range(3):
        receive_sample(
            batch=sample.batch,
            place="kettle",
            taken_at=MORNING_AFTER - dt.timedelta(minutes=minutes),
            taken_by="operator",
            by=technician,
        )

    with django_assert_max_num_queries(len(few)):
        bench.get(LIST)
