import itertools

import pytest

from specs.methods.emcor import EMCOR, SCALE, worse
from tests.specs.methods.bench import bar_keys, carried_out

DISTILLED = {"water": "distilled water"}


def rated(*marks, conditions=DISTILLED, **parameters):
    readings = {f"bearing_{place}": mark for place, mark in enumerate(marks, 1)}
    return carried_out(
        "pair of rated bearings", readings, conditions=conditions, **parameters
    )


def test_both_ratings_are_the_result_and_the_worse_is_judged():
    outcome = rated("0", "1")

    assert outcome.mark == "0/1"
    assert EMCOR.judged_as(outcome.mark) == "1"
    assert outcome.can_count


@pytest.mark.parametrize(("one", "other"), [*itertools.product(SCALE, repeat=2)])
def test_the_worse_of_any_pair_is_the_higher_rating(one, other):
    assert worse(f"{one}/{other}") == max(one, other)


@pytest.mark.parametrize("text", ["", "6", "0/6", "none", "0/"])
def test_what_is_no_pair_of_ratings_stays_as_it_is(text):
    assert worse(text) == text


def test_ratings_further_apart_than_the_house_allows_ask_for_two_bearings():
    outcome = rated("0", "2")

    assert (outcome.complete, outcome.mark) == (False, "0/2")
    assert outcome.asks[0].startswith("Run two further bearings: the ratings 0 and 2")
    assert outcome.asks[0].endswith("the method's own figure was not found.")
    assert rated("0", "2", apart="2").can_count
    assert not rated("0", "1", apart="0").can_count


def test_two_further_bearings_are_shown_beside_the_first():
    outcome = rated("0", "2", "1", "1")

    assert outcome.mark == "0/2/1/1"
    assert EMCOR.judged_as(outcome.mark) == "2"
    assert outcome.can_count


@pytest.mark.parametrize("marks", [("0", "2", "1"), ("0", "0", "", "1")])
def test_one_further_bearing_is_half_a_pair(marks):
    outcome = rated(*marks)

    assert "rate the other one too" in outcome.asks[0]
    assert not outcome.can_count


@pytest.mark.parametrize("marks", [(), ("0",), ("", "0")])
def test_one_bearing_is_no_result(marks):
    outcome = rated(*marks)

    assert (outcome.complete, outcome.mark) == (False, "")
    assert outcome.says.endswith("of 2 bearings")


@pytest.mark.parametrize("mark", ["6", "1.5", "rusty"])
def test_a_mark_off_the_scale_is_no_rating(mark):
    outcome = rated("0", mark)

    assert outcome.asks == (f"“{mark}” is no rating: choose 0 to 5.",)
    assert not outcome.can_count


def test_the_water_must_be_named():
    outcome = rated("0", "1", conditions={})

    assert outcome.asks == ("Water used is still to be given.",)
    assert not outcome.can_count


def test_another_water_is_another_test():
    outcome = rated("0", "1", conditions={"water": "salt water"})

    assert bar_keys(outcome) == ["water"]
    assert "salt water was used" in outcome.bars[0].sentence
    assert rated(
        "0", "1", conditions={"water": "salt water"}, water="salt water"
    ).can_count


@pytest.mark.parametrize(("one", "other"), [("2", "3"), ("5", "4"), ("4", "4")])
def test_bad_ratings_that_agree_need_no_further_bearings(one, other):
    assert rated(one, other).can_count


def test_only_the_further_bearings_may_be_left_out():
    assert [slot.optional for slot in EMCOR.slots({})] == [False, False, True, True]
