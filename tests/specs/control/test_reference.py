"""A set of readings on a reference material held against its assigned value."""

from decimal import Decimal
from fractions import Fraction

import pytest

from specs.control.reference import ControlRefused, Finding, judge, limits_of, plain
from specs.numbers import NumberRefused

ASSIGNED, DEVIATION = Decimal(286), Decimal("2.53")


def test_a_wrong_shaft_shows_as_a_bias_beyond_the_action_limit():
    found = judge([Decimal(296), Decimal(297), Decimal(295)], ASSIGNED, DEVIATION)

    assert (found.mean, found.bias) == (296, 10)
    assert found.limits == limits_of(DEVIATION)
    assert found.limits.action == Decimal("7.59")
    assert found.finding is Finding.BEYOND
    assert not found.finding.is_good


def test_a_good_reading_lies_within():
    found = judge([Decimal(287), Decimal(288), Decimal(287)], ASSIGNED, DEVIATION)

    assert found.bias == Fraction(4, 3)
    assert found.finding is Finding.WITHIN


@pytest.mark.parametrize(
    ("bias", "finding"),
    [
        ("5.06", Finding.WITHIN),
        ("-5.06", Finding.WITHIN),
        ("5.07", Finding.WARNING),
        ("-7.59", Finding.WARNING),
        ("7.59", Finding.WARNING),
        ("-7.60", Finding.BEYOND),
    ],
)
def test_a_bias_equal_to_a_limit_lies_within_it(bias, finding):
    assert judge([ASSIGNED + Decimal(bias)], ASSIGNED, DEVIATION).finding is finding


def test_without_a_standard_deviation_nothing_is_judged_and_nothing_is_good():
    found = judge([Decimal(286)], ASSIGNED, None)

    assert found.limits is None
    assert found.finding is Finding.NO_LIMIT
    assert not found.finding.is_good


def test_no_readings_are_refused():
    with pytest.raises(ControlRefused, match="no reading"):
        judge([], ASSIGNED, DEVIATION)


@pytest.mark.parametrize("deviation", ["0", "-1", "NaN", "Infinity"])
def test_a_standard_deviation_is_above_zero(deviation):
    with pytest.raises(ControlRefused, match="above zero"):
        limits_of(Decimal(deviation))


def test_a_bound_is_no_reading():
    assert plain("286,5") == Decimal("286.5")
    with pytest.raises(ControlRefused, match="without < or >"):
        plain(">286")
    with pytest.raises(NumberRefused):
        plain("abc")
