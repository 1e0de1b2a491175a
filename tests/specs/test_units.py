from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.units import UNITS, UnitRefused, convert


@pytest.mark.parametrize(
    ("value", "given_unit", "wanted", "result"),
    [
        ("1", "psi", "kPa", "6.894757"),
        ("1", "psi", "bar", "0.06894757"),
        ("12.2", "psi", "kPa", "84.1160354"),
        ("1", "bar", "kPa", "100"),
        ("3.5", "MPa", "kPa", "3500"),
        ("25", "°C", "K", "298.15"),
        ("298.15", "K", "°C", "25"),
        ("10.02", "g", "mg", "10020"),
        ("280", "0.1 mm", "mm", "28"),
        ("28", "mm", "0.1 mm", "280"),
        ("100", "h", "min", "6000"),
        ("5", "kPa", "kPa", "5"),
    ],
)
def test_a_value_is_converted_exactly(value, given_unit, wanted, result):
    assert convert(Decimal(value), given_unit, wanted) == Decimal(result)


@given(
    st.decimals("-1000", "1000", places=3),
    st.sampled_from(sorted(UNITS)),
    st.sampled_from(sorted(UNITS)),
)
def test_there_and_back_is_the_same_value(value, one, other):
    if UNITS[one].measures != UNITS[other].measures:
        with pytest.raises(UnitRefused, match="cannot become the other"):
            convert(value, one, other)
        return

    back = convert(convert(value, one, other), other, one)

    assert abs(Fraction(back) - Fraction(value)) <= Fraction(1, 10**18)


def test_an_unknown_unit_is_refused_with_the_known_ones():
    with pytest.raises(UnitRefused, match="use one of kPa, psi"):
        convert(Decimal(1), "atm", "kPa")
