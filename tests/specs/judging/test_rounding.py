from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.rounding import (
    RoundingRefused,
    check_tie,
    mean,
    round_to_step,
    step_of,
)

VALUES = st.decimals("-100000", "100000", places=4)
STEPS = st.sampled_from(["0.01", "0.1", "0.5", "1", "5", "10", "100"])
TIES = st.sampled_from(["even", "up"])


def slowly_rounded(value, step, tie):
    """The obvious way: walk along the multiples and take the nearer neighbour."""
    value, step = Fraction(value), Fraction(step)
    below = 0
    while (below + 1) * step <= value:
        below += 1
    while below * step > value:
        below -= 1
    lower, upper = below * step, (below + 1) * step
    if value - lower != upper - value:
        return lower if value - lower < upper - value else upper
    if tie == "up":
        return upper if value > 0 else lower
    return lower if below % 2 == 0 else upper


@given(st.decimals("-60", "60", places=3), STEPS, TIES)
def test_rounding_agrees_with_the_obvious_way(value, step, tie):
    assert round_to_step(value, step, tie) == slowly_rounded(value, step, tie)


@given(st.integers(-400, 400), TIES)
def test_ties_agree_with_the_obvious_way(halves, tie):
    value = Decimal(halves) / 2

    assert round_to_step(value, "1", tie) == slowly_rounded(value, "1", tie)


@given(VALUES, STEPS, TIES)
def test_a_rounded_number_is_not_changed_by_rounding_again(value, step, tie):
    once = round_to_step(value, step, tie)

    assert round_to_step(once, step, tie) == once


@given(VALUES, STEPS, TIES)
def test_a_rounded_number_lies_within_half_a_step(value, step, tie):
    assert abs(round_to_step(value, step, tie) - value) <= Decimal(step) / 2


@given(VALUES, VALUES, STEPS, TIES)
def test_rounding_never_changes_the_order(one, other, step, tie):
    low, high = sorted((one, other))

    assert round_to_step(low, step, tie) <= round_to_step(high, step, tie)


@pytest.mark.parametrize(
    ("value", "step", "text"),
    [
        ("273.666", "1", "274"),
        ("2.794", "0.1", "2.8"),
        ("12.04", "0.1", "12.0"),
        ("16.25", "0.5", "16.0"),
        ("35950", "100", "36000"),
        ("35950", "1E+2", "36000"),
        ("-0.4", "1", "0"),
    ],
)
def test_a_rounded_number_has_the_decimals_of_its_step(value, step, text):
    assert f"{round_to_step(Decimal(value), step)}" == text


def test_no_context_rounds_what_is_rounded_here():
    with localcontext() as context:
        context.prec = 2
        rounded = round_to_step(Decimal("123456.5"), "1")

    assert rounded == Decimal(123456)


def test_a_mean_of_thirds_is_exact():
    assert mean([Decimal(272), Decimal(274), Decimal(275)]) == Fraction(821, 3)


def test_no_values_have_no_mean():
    with pytest.raises(RoundingRefused, match="no mean"):
        mean([])


@pytest.mark.parametrize(
    ("text", "step"), [("0.5", "0.1"), ("0.50", "0.01"), ("36000", "1"), ("1E+2", "1")]
)
def test_a_limit_rounds_to_its_own_last_digit(text, step):
    assert step_of(text) == Decimal(step)


@pytest.mark.parametrize("step", ["0", "-1", "NaN", "Infinity"])
def test_a_step_lies_above_nought(step):
    with pytest.raises(RoundingRefused, match="above zero"):
        round_to_step(Decimal(1), step)


def test_two_rules_for_a_tie_are_known():
    check_tie("even")
    check_tie("up")
    with pytest.raises(RoundingRefused, match="name even or up"):
        round_to_step(Decimal(1), "1", "down")


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity", "sNaN"])
def test_only_a_finite_number_is_rounded(value):
    with pytest.raises(RoundingRefused, match="finite"):
        round_to_step(Decimal(value), "1")


def test_what_is_not_finite_has_no_last_digit():
    with pytest.raises(RoundingRefused, match="no last digit"):
        step_of("NaN")
