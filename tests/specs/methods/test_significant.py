from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.rounding import RoundingRefused
from specs.methods.significant import round_to_figures


@pytest.mark.parametrize(
    ("value", "figures", "text"),
    [
        ("8.8649", 4, "8.865"),
        ("8.8645", 4, "8.864"),
        ("8.8655", 4, "8.866"),
        ("73.3", 4, "73.30"),
        ("9.9995", 4, "10.00"),
        ("9.9994", 4, "9.999"),
        ("9.9996", 4, "10.00"),
        ("99.996", 4, "100.0"),
        ("123.45", 4, "123.4"),
        ("12345", 4, "12340"),
        ("12355", 4, "12360"),
        ("0.0012345", 4, "0.001234"),
        ("-73.345", 4, "-73.34"),
        ("0.284", 2, "0.28"),
        ("9.5", 1, "10"),
        ("0", 4, "0"),
    ],
)
def test_a_value_keeps_so_many_figures(value, figures, text):
    assert f"{round_to_figures(Decimal(value), figures):f}" == text


@pytest.mark.parametrize("figures", [0, -1])
def test_no_figures_are_refused(figures):
    with pytest.raises(RoundingRefused, match="name at least one"):
        round_to_figures(Decimal(5), figures)


@given(st.fractions(min_value="0.001", max_value=99999), st.integers(1, 8))
def test_the_result_is_as_near_as_its_figures_allow(value, figures):
    rounded = round_to_figures(value, figures)

    assert len(rounded.as_tuple().digits) >= min(figures, 1)
    assert abs(Fraction(rounded) - value) <= value * Fraction(
        1, 2 * 10 ** (figures - 1)
    )
    assert round_to_figures(rounded, figures) == rounded
