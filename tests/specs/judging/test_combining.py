"""Several marks to one: the worst by its scale or by the direction that is good, and what most of them show."""

import pytest

from specs.judging.combining import majority, worst_of

COPPER = ("1a", "1b", "2a", "2b")


@pytest.mark.parametrize(
    ("marks", "place"),
    [
        (["1a", "1b"], 1),
        (["2a", "1b"], 0),
        (["1b", "1b"], 0),
        (["1a", "2a", "2a"], 1),
        (["2b", "2a", "1a"], 0),
    ],
)
def test_the_worst_mark_is_the_last_of_the_scale(marks, place):
    assert worst_of(marks, scale=COPPER) == place


@pytest.mark.parametrize(
    ("better", "place"),
    [("lower", 1), ("higher", 0), ("nearer nought", 1), ("", None)],
)
def test_the_worst_number_follows_the_direction(better, place):
    assert worst_of(["126", "160"], better=better) == place


def test_nearer_nought_looks_at_the_size_alone():
    assert worst_of(["-12", "9"], better="nearer nought") == 0


@pytest.mark.parametrize(
    ("marks", "better", "place"),
    [
        ([">288", "264"], "higher", 1),
        ([">288", "300"], "higher", 0),
        ([">800", "800"], "higher", 1),
        (["800", ">800"], "higher", 0),
        (["<2", "2"], "lower", 1),
        (["<2", "1"], "lower", 0),
    ],
)
def test_a_bound_towards_the_good_counts_with_its_figure(marks, better, place):
    assert worst_of(marks, better=better) == place


@pytest.mark.parametrize(
    ("marks", "better", "place"),
    [
        ([">5", "7"], "lower", 0),
        (["7", ">5", ">6"], "lower", 2),
        (["80", "<100"], "higher", 1),
        (["9", ">5"], "nearer nought", 1),
        (["9", "<5"], "nearer nought", 1),
    ],
)
def test_a_bound_towards_the_bad_is_worse_than_any_number(marks, better, place):
    assert worst_of(marks, better=better) == place


def test_equal_marks_need_no_direction():
    assert worst_of(["160", "160"]) == 0


def test_a_mark_outside_the_scale_makes_no_order():
    assert worst_of(["1a", "9z"], scale=COPPER) is None


def test_words_have_no_order_without_a_scale():
    assert worst_of(["smooth", "lumpy"], better="lower") is None


def test_a_result_of_several_marks_is_judged_by_one_of_them():
    worse = worst_of(
        ["0, 1", "0, 2"],
        scale=("0", "1", "2"),
        judged_as=lambda mark: mark.rpartition(", ")[2],
    )

    assert worse == 1


@pytest.mark.parametrize(
    ("marks", "shown"),
    [
        (["pass", "fail", "pass"], "pass"),
        (["fail", "pass", "fail"], "fail"),
        (["160", "126", "200"], ""),
        (["pass", "fail"], ""),
        (["pass"], "pass"),
    ],
)
def test_what_more_than_half_show(marks, shown):
    assert majority(marks) == shown
