"""Runs within one determination against what they may differ by; limits constructed."""

from fractions import Fraction

import pytest

from specs.methods.runs import too_far_apart
from specs.numbers import Number, read, to_decimal


def told(runs, **limits):
    named = {name.replace("_", " "): text for name, text in limits.items()}
    return too_far_apart([read(run) for run in runs], "°C", named)


@pytest.mark.parametrize(("second", "is_told"), [("266", False), ("266.01", True)])
def test_a_difference_of_the_limit_itself_is_allowed(second, is_told):
    assert bool(told(["260", second], the_limit_of="6")) is is_told


def test_the_sentence_names_both_numbers_and_the_limit():
    assert told(["260", "270.67"], the_limit_of="6,5") == (
        "Make two fresh runs: these differ by 10.67 °C, more than the limit of 6.5.",
    )


def test_of_several_limits_the_first_that_is_passed_speaks():
    (sentence,) = told(["260", "270"], house="12", r="6", other="5")

    assert sentence.endswith("more than r 6.")


def test_a_limit_that_is_not_stated_allows_everything():
    assert told(["260", "290"], house="", r="") == ()


def test_a_limit_with_all_the_digits_of_a_root_is_taken():
    long = "6.000000000000000000000000001"

    assert told(["260", "266"], r=long) == ()
    assert told(["260", "266.1"], r=long) != ()


def test_a_bound_is_never_compared():
    assert told(["260", ">288"], r="6") == ()


def test_a_single_run_differs_from_nothing():
    assert told(["260"], r="6") == ()


def test_thirds_on_both_sides_of_a_hundred_are_exactly_their_difference_apart():
    runs = [Number.of(to_decimal(Fraction(it, 3))) for it in (290, 308)]

    assert too_far_apart(runs, "°C", {"r": "6"}) == ()
