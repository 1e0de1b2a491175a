"""What narrows a chart keeps just the values that fit."""

import datetime as dt

import pytest

from lims.people.queries import person
from lims.trends.asked import Asked
from lims.trends.queries import trend
from tests.factories import history

FIRST = dt.date(2026, 1, 5)


def batches(**asked):
    found = trend(Asked("LX2", "worked-penetration", **asked))
    return [it.batch for it in found.points]


@pytest.fixture
def told(lot, manager):
    """Four batches of history, from K1, K2, K1, K2, three days apart from 5 January."""
    rows = history.lines(
        ["278", "281", "283", "286"],
        first=FIRST,
        instrument="PEN-09",
        person="R. Ashdown",
    )
    history.taken_in(rows, by=manager)


def test_without_anything_asked_all_stand(told):
    assert batches() == [*(f"H26-000{it}" for it in (1, 2, 3, 4)), "Q1-26-0417"]


def test_a_kettle(told):
    assert batches(kettle="K2") == ["H26-0002", "H26-0004"]
    assert batches(kettle="K1") == ["H26-0001", "H26-0003", "Q1-26-0417"]


def test_an_instrument_here_and_in_history(told):
    assert batches(instrument="PEN-01") == ["Q1-26-0417"]
    assert len(batches(instrument="PEN-09")) == 4
    assert batches(instrument="PEN-0") == []


def test_a_person_here_and_in_history(told):
    assert len(batches(person="R. Ashdown")) == 4
    assert batches(person=person("tech-a").name) == ["Q1-26-0417"]


@pytest.mark.parametrize(
    "written", ["Q1-26-0417-A", "Q1-26-0417 A", "q1 26 0417 a", "Q1-26-0417"]
)
def test_a_fill_lot_or_its_batch_however_it_is_written(told, written):
    assert batches(lot=written) == ["Q1-26-0417"]


def test_a_batch_of_history(told):
    assert batches(lot="H26-0003") == ["H26-0003"]


def test_another_lot_of_the_same_batch_is_not_it(told):
    assert batches(lot="Q1-26-0417-B") == []


def test_both_days_belong_to_what_is_asked(told):
    asked = {"since": dt.date(2026, 1, 8), "until": dt.date(2026, 1, 11)}

    assert batches(**asked) == ["H26-0002", "H26-0003"]


def test_days_are_those_of_the_laboratory(told):
    """The sample of 5 March, 07:20 local, is of that day alone."""
    day = dt.date(2026, 3, 5)

    assert batches(since=day, until=day) == ["Q1-26-0417"]
    assert batches(since=day + dt.timedelta(days=1)) == []


def test_what_nobody_has_finds_nothing(told):
    assert batches(kettle="K9") == []
    assert batches(lot="---") == []
