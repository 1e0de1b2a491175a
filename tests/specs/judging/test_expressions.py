from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.precision import PrecisionRefused, read_expression


def at(text, level):
    return read_expression(text).at(Decimal(level))


@pytest.mark.parametrize(
    ("text", "level", "found"),
    [
        ("7", "280", "7"),
        ("7", "-280", "7"),
        ("7", "0", "7"),
        ("23 %", "60", "13.8"),
        ("23%", "60", "13.8"),
        ("0,20", "0.5", "0.2"),
        ("2 + 5 %", "100", "7"),
        ("9+12 %", "100", "21"),
        ("5 % + 2", "100", "7"),
        ("0.17 m", "100", "17"),
        ("0.8·m", "100", "80"),
        ("0.8 × m", "100", "80"),
        ("0.8*m", "100", "80"),
        ("1.4 √m", "9", "4.2"),
        ("1.4 √(m)", "9", "4.2"),
        ("1,4 sqrt(m)", "9", "4.2"),
        ("1.4 m^0.5", "9", "4.2"),
        ("1 + 2 % + 3 √m", "100", "33"),
        ("1 + 2 + 3 %", "100", "6"),
        ("0.5 √m", "0.25", "0.25"),
        (" 7 ", "1", "7"),
        ("0.0812 (m + 0.15)", "0.50", "0.05278"),
        ("0.0812(m+0,15)", "0.50", "0.05278"),
        ("0.0812 × ( m + 0.15 )", "0.50", "0.05278"),
        ("3 (m + 0)", "2", "6"),
    ],
)
def test_a_figure_is_read_and_taken_at_the_level(text, level, found):
    assert at(text, level) == Decimal(found)


def test_the_oxidation_figures_of_grease_by_pressure_dsc():
    # ASTM D5483: determinability 0.59 √m, r 0.42 √m, R 0.71 √m, here at 25 min.
    found = [at(text, "25") for text in ("0.59 √m", "0.42 √m", "0.71 √m")]

    assert found == [Decimal("2.95"), Decimal("2.10"), Decimal("3.55")]


def test_a_level_may_be_the_exact_mean_of_results():
    assert read_expression("10 %").at(Fraction(1, 3)) == Decimal(
        "0.03333333333333333333333333333"
    )


@given(st.integers(1, 10**6), st.integers(1, 10**4))
def test_a_root_is_the_number_whose_square_it_is(level, hundredths):
    coefficient = Decimal(hundredths) / 100
    found = read_expression(f"{coefficient} √m").at(Decimal(level))

    wanted = Fraction(coefficient) ** 2 * level
    assert abs(Fraction(found) ** 2 - wanted) <= wanted / 10**26


@pytest.mark.parametrize(
    ("text", "needs"),
    [("7", False), ("7 + 1", False), ("5 %", True), ("2 + 5 %", True), ("1 √m", True)],
)
def test_whether_the_level_matters_is_told(text, needs):
    assert read_expression(text).needs_level is needs


def test_the_text_is_kept_as_typed():
    assert read_expression(" 0,42 √m ").text == "0,42 √m"
    assert read_expression(" 0.08 (m + 1) ").text == "0.08 (m + 1)"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "seven",
        "-7",
        "+ 7",
        "7 +",
        "2 ++ 3",
        "2 - 3 %",
        "m",
        "%",
        "√m",
        "7 °C",
        "1.2.3",
        "7e3",
        "0.4 m^0.75",
        "0.4 M",
        "0.4 (m - 1)",
        "0.4 (m + 1) + 2",
        "<7",
        "١",
    ],
)
def test_what_states_no_precision_is_refused_with_the_forms(text):
    with pytest.raises(PrecisionRefused) as refused:
        read_expression(text)

    assert refused.value.sentence == (
        f"“{text.strip()}” states no precision: write 7, 23 %, 2 + 5 %, 0.42 √m or "
        "0.08 (m + 0.15), m being the level of the results."
    )


@pytest.mark.parametrize("text", ["0", "0.00", "0 %", "0 + 0 √m", "0 (m + 3)"])
def test_no_method_has_a_precision_of_nought(text):
    with pytest.raises(PrecisionRefused, match="a precision of zero, which no method"):
        read_expression(text)


def test_a_text_too_long_or_too_fine_is_refused():
    with pytest.raises(PrecisionRefused, match="longer than 60 characters"):
        read_expression("1 + " * 15 + "1")
    with pytest.raises(PrecisionRefused, match="17 digits"):
        read_expression("12345678901234567")

    assert read_expression("1 + " * 14 + "1234").constant == 1248


@pytest.mark.parametrize("text", ["23 %", "0.42 √m", "2 + 5 %", "0.5 (m + 9)"])
def test_below_a_level_of_nought_there_is_no_share_of_it(text):
    with pytest.raises(PrecisionRefused, match=r"at the level -0\.1, which is below"):
        at(text, "-0.1")


@pytest.mark.parametrize("text", ["23 %", "0.42 √m"])
def test_a_share_of_nought_is_no_precision(text):
    with pytest.raises(PrecisionRefused, match=f"“{text}” states no precision at the"):
        at(text, "0")

    assert at("2 + 5 %", "0") == 2
