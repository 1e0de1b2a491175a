import itertools

import pytest

from tests.specs.methods.bench import carried_out

PASS, FAIL = "pass", "fail"


def bearings(*marks):
    readings = {f"bearing_{place}": mark for place, mark in enumerate(marks, 1)}
    return carried_out("majority of three bearings", readings)


def found(**readings):
    return carried_out("pass or fail as found", readings)


@pytest.mark.parametrize("marks", [*itertools.product((PASS, FAIL), repeat=3)])
def test_two_of_three_bearings_give_the_result(marks):
    outcome = bearings(*marks)

    assert outcome.mark == max((PASS, FAIL), key=marks.count)
    assert outcome.says == f"{marks.count(PASS)} of 3 bearings pass"
    assert outcome.parts == {f"bearing_{it}": mark for it, mark in enumerate(marks, 1)}
    assert outcome.can_count


@pytest.mark.parametrize("marks", [(), (PASS,), (PASS, PASS), (FAIL, "", FAIL)])
def test_all_three_bearings_are_looked_at_even_when_two_agree(marks):
    outcome = bearings(*marks)

    assert (outcome.complete, outcome.mark) == (False, "")


def test_a_mark_that_is_no_finding_is_named():
    outcome = bearings(PASS, "good", "3")

    assert outcome.asks == ("“good” is no finding: choose pass or fail.",)
    assert not outcome.can_count


def test_a_pass_needs_no_words_and_a_failure_does():
    assert found(finding="Pass").can_count
    silent, told = found(finding=FAIL), found(finding=FAIL, words="spots on the steel")

    assert silent.asks == ("Say in words what was seen.",)
    assert not silent.can_count
    assert (told.mark, told.says) == (FAIL, "spots on the steel")
    assert told.can_count


def test_words_that_read_as_a_number_are_words():
    assert found(finding=FAIL, words="3").can_count


@pytest.mark.parametrize("finding", ["", "met", "1"])
def test_anything_else_is_no_finding(finding):
    outcome = found(finding=finding)

    assert (outcome.complete, outcome.mark) == (False, "")
