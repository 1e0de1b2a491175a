from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.steps import StepRefused, check_step, rounded, step_at


@pytest.mark.parametrize(
    ("value", "step", "reported"),
    [
        ("28.34", "0.1", "28.3"),
        ("28.35", "0.1", "28.4"),
        ("0.25", "0.1", "0.2"),
        ("95.6148375", "3 digits", "95.6"),
        ("980.665", "3 digits", "981"),
        ("123456", "3 digits", "123000"),
        ("-95.6148375", "3 digits", "-95.6"),
        ("0.0012345", "2 digits", "0.0012"),
        ("10", "3 digits", "10.0"),
        ("9.99", "3 digits", "9.99"),
        ("9.996", "3 digits", "10.0"),
        ("8.8645", "4 digits", "8.864"),
        ("8.8655", "4 digits", "8.866"),
        ("73.3", "4 digits", "73.30"),
        ("9.9994", "4 digits", "9.999"),
        ("9.9995", "4 digits", "10.00"),
        ("12345", "4 digits", "12340"),
        ("12355", "4 digits", "12360"),
        ("0.284", "2 digits", "0.28"),
        ("9.5", "1 digit", "10"),
        ("99950", "3 digits", "100000"),
        ("0", "3 digits", "0"),
        ("-0.5234", "0.01, 3 digits", "-0.52"),
        ("9.994", "0.01, 3 digits", "9.99"),
        ("9.996", "0.01, 3 digits", "10.0"),
        ("-12.34", "0.01, 3 digits", "-12.3"),
        ("0.004", "0.01, 3 digits", "0.00"),
    ],
)
def test_a_value_is_rounded_to_the_step_of_its_level(value, step, reported):
    assert f"{rounded(Decimal(value), step):f}" == reported


def test_a_third_has_its_digits_too():
    assert rounded(Fraction(200, 3), "3 digits") == Decimal("66.7")
    assert step_at(Fraction(200, 3), "3 digits") == Decimal("0.1")


def test_a_tie_follows_the_rule_that_is_named():
    assert rounded(Decimal("20.25"), "3 digits") == Decimal("20.2")
    assert rounded(Decimal("20.25"), "3 digits", tie="up") == Decimal("20.3")


@given(
    st.decimals("-100000", "100000", places=4), st.sampled_from(["1", "2", "3", "4"])
)
def test_no_more_digits_are_reported_than_are_asked_for(value, count):
    reported = rounded(value, f"{count} digits")

    digits = f"{abs(reported):f}".replace(".", "").strip("0")
    assert len(digits) <= int(count)
    assert abs(reported - value) * 2 <= step_at(value, f"{count} digits")


@given(st.fractions(min_value="0.001", max_value=99999), st.integers(1, 8))
def test_the_result_is_as_near_as_its_digits_allow(value, count):
    reported = rounded(value, f"{count} digits")

    allowed = value * Fraction(1, 2 * 10 ** (count - 1))
    assert abs(Fraction(reported) - value) <= allowed


@given(st.decimals("-1000", "1000", places=4))
def test_rounding_again_changes_nothing(value):
    for step in ("0.1", "3 digits", "0.01, 3 digits"):
        once = rounded(value, step)

        assert rounded(once, step) == once


@pytest.mark.parametrize(
    "text",
    [
        "",
        "0",
        "-1",
        ">1",
        "3 figures",
        "0 digits",
        "10 digits",
        "0.1,",
        "0,1",
        ", 3 digits",
    ],
)
def test_what_names_no_step_is_refused_with_the_forms_that_do(text):
    with pytest.raises(StepRefused, match="such as 3 digits") as refused:
        check_step(text)

    assert f"“{text}”" in refused.value.sentence
