"""Where a value of the past lies beside the limits of today."""

import pytest

from specs.methods.ratings import COPPER_SCALE
from specs.tables.beside import beside
from specs.tables.known import Limits, Measured

PEN = Measured("pen", "Worked penetration", unit="0.1 mm")
CU = Measured("cu", "Copper strip", kind="rating", scale=COPPER_SCALE)
RUST = Measured("rust", "Rust", kind="rating", scale=("0", "1", "2"))
WORDS = Measured("words", "Colour", kind="words")


@pytest.mark.parametrize(
    ("value", "lower", "upper", "where"),
    [
        ("281", "265", "295", "within"),
        ("265", "265", "295", "within"),
        ("295", "265", "295", "within"),
        ("264", "265", "295", "beyond"),
        ("295.4", "265", "295", "beyond"),
        (">288", "250", "", "within"),
        (">250", "250", "", "within"),
        (">300", "265", "295", "beyond"),
        (">295", "", "295", "beyond"),
        (">270", "265", "295", "not known"),
        (">300", "350", "", "not known"),
        ("<2", "", "35", "within"),
        ("<200", "250", "", "beyond"),
        ("<300", "265", "295", "not known"),
        ("281", "", "", ""),
        ("soft", "265", "295", "not known"),
    ],
)
def test_a_number_lies_within_beyond_or_nobody_knows(value, lower, upper, where):
    assert beside(value, Limits(lower, upper), PEN) == where


@pytest.mark.parametrize(
    ("measured", "value", "upper", "where"),
    [
        (CU, "1a", "1b", "within"),
        (CU, "1b", "1b", "within"),
        (CU, "2a", "1b", "beyond"),
        (CU, "pass", "1b", "not known"),
        (RUST, "0/1", "1", "within"),
        (RUST, "0/2", "1", "beyond"),
    ],
)
def test_a_rating_goes_by_the_order_of_its_scale(measured, value, upper, where):
    assert beside(value, Limits("", upper), measured) == where


def test_words_lie_nowhere():
    assert beside("brown", Limits("", "5"), WORDS) == "not known"


def test_without_limits_nothing_is_said():
    assert beside("281", None, PEN) == ""
