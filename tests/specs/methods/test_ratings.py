import itertools

import pytest

from specs.methods.ratings import COPPER_SCALE
from specs.numbers import read
from tests.specs.methods.bench import carried_out


def copper(**marks):
    return carried_out("copper strip", marks)


def appearance(**readings):
    return carried_out("appearance", readings)


@pytest.mark.parametrize("mark", COPPER_SCALE)
def test_every_rating_of_the_scale_is_taken(mark):
    assert copper(strip_1=mark).mark == mark
    assert copper(strip_1=f" {mark.upper()} ").mark == mark


@pytest.mark.parametrize(("better", "worse"), [*itertools.pairwise(COPPER_SCALE)])
def test_of_two_strips_the_more_tarnished_stands(better, worse):
    outcome = copper(strip_1=better, strip_2=worse)

    assert outcome.mark == copper(strip_1=worse, strip_2=better).mark == worse
    assert outcome.says == f"the more tarnished of {better} and {worse}"
    assert outcome.can_count


def test_one_strip_is_enough_and_the_first_is_needed():
    assert copper(strip_1="1a").can_count
    assert not copper(strip_2="1a").can_count
    assert not copper().complete


@pytest.mark.parametrize(
    "marks", [{"strip_1": "5a"}, {"strip_1": "1a", "strip_2": "x"}]
)
def test_a_mark_off_the_scale_gives_no_rating(marks):
    outcome = copper(**marks)

    assert (outcome.complete, outcome.mark, outcome.can_count) == (False, "", False)
    assert "choose 1a to 4c" in outcome.asks[0]


def test_an_appearance_as_agreed_needs_no_words():
    outcome = appearance(finding="Met")

    assert (outcome.mark, outcome.says) == ("met", "as agreed")
    assert outcome.can_count


def test_an_appearance_not_met_must_be_told_in_words():
    silent = appearance(finding="not met")
    told = appearance(finding="not met", words=" lumps of dry soap ")

    assert silent.asks == ("Say in words what was seen.",)
    assert not silent.can_count
    assert (told.mark, told.says) == ("not met", "lumps of dry soap")
    assert told.can_count


def test_words_that_read_as_a_number_are_words_all_the_same():
    outcome = appearance(finding="not met", words="3")

    assert outcome.parts == {"words": read("3").text}


@pytest.mark.parametrize("finding", ["", "fine", "5"])
def test_any_other_finding_is_none(finding):
    outcome = appearance(finding=finding)

    assert (outcome.complete, outcome.mark, outcome.can_count) == (False, "", False)
