from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.numbers import (
    Number,
    NumberRefused,
    Refused,
    padded,
    read,
    shortened,
    to_decimal,
)

ALPHABET = "0123456789.,<>+-−– '’_eElO٢²NaInf%\x00\t\n"


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("279", "279"),
        ("27.9", "27.9"),
        ("27,9", "27.9"),
        ("0.50", "0.50"),
        ("007", "7"),
        (".5", "0.5"),
        (",5", "0.5"),
        (">288", ">288"),
        ("<2", "<2"),
        ("> 288", ">288"),
        ("<-5", "<-5"),
        ("+22", "22"),
        ("-18", "-18"),
        ("−18", "-18"),
        ("–18", "-18"),
        ("-0", "0"),
        ("-0.00", "0.00"),
        ("  280\t\n", "280"),
        ("280\u00a0", "280"),
        ("999999999999999", "999999999999999"),
        ("0.000000000000001", "0.000000000000001"),
    ],
)
def test_a_typed_number_is_read_exactly(text, canonical):
    number = read(text)

    assert number.canonical == canonical
    assert number.text == text


def test_a_bound_has_its_own_sign():
    assert (read(">288").sign, read("<2").sign, read("2").sign) == (">", "<", "")
    assert read(">288").is_censored
    assert not read("288").is_censored


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Nothing was typed"),
        ("   ", "Nothing was typed"),
        ("28l", "if you mean 281"),
        ("28O", "if you mean 280"),
        ("I5,5", "if you mean 15,5"),
        ("2 81", "if you mean 281"),
        ("1 234,5", "if you mean 1234,5"),
        ("1\u202f234", "if you mean 1234"),
        ("1'234", "if you mean 1234"),
        ("1’234", "if you mean 1234"),
        ("1_000", "if you mean 1000"),
        ("- 5", "if you mean -5"),
        ("1.234,5", "more than one decimal mark"),
        ("1,234.5", "more than one decimal mark"),
        ("1.2.3", "more than one decimal mark"),
        ("5.", "ends with a decimal mark"),
        ("nan", "not a number that can be read"),
        ("sNaN123", "not a number that can be read"),
        ("-Infinity", "not a number that can be read"),
        ("inf", "not a number that can be read"),
        ("1e3", "written with an exponent"),
        ("1E-400", "written with an exponent"),
        ("2 x 10", "written with an exponent"),
        ("≥288", "write > or <"),
        (">=288", "write > or <"),
        ("≤2", "write > or <"),
        (">>288", "write > or <"),
        ("٢٨٠", "the digits 0 to 9"),
        ("２８０", "the digits 0 to 9"),
        ("10²", "the digits 0 to 9"),
        ("½", "the digits 0 to 9"),
        ("280\x00", "cannot be printed"),
        ("\x1c280", "cannot be printed"),
        ("28\u200b0", "cannot be printed"),
        ("1" * 41, "longer than 40 characters"),
        ("1234567890123456", "at most 15"),
        ("0.1234567890123456", "at most 15"),
        ("100000000000000000000", "at most 15"),
        ("Q1-26-0417-A-01", "looks like a label, not a reading"),
        ("PEN-01", "looks like a label, not a reading"),
        ("https://q.example/check/1", "looks like a label, not a reading"),
        ("265-295", "looks like limits"),
        ("265 – 295", "looks like limits"),
        ("2026-03-05", "looks like a date"),
        ("12.12.2025", "looks like a date"),
        ("280 kPa", "without its unit"),
        ("70%", "without its unit"),
        ("none", "is no number"),
        ("--5", "is no number"),
        ("283 (retest)", "is no number"),
        ("n/a", "is no number"),
        ("<", "is no number"),
        ("-", "is no number"),
        (".", "is no number"),
    ],
)
def test_what_is_no_number_is_refused_with_a_sentence(text, words):
    with pytest.raises(NumberRefused) as refusal:
        read(text)

    assert words in refusal.value.sentence
    assert refusal.value.sentence.endswith(".")
    assert refusal.value.sentence.isprintable()


@pytest.mark.parametrize(
    ("text", "unit", "ends"),
    [
        ("12 lb", "mbar", "without its unit; this box takes mbar."),
        ("280 mbar", "mbar", "without its unit; this box takes mbar."),
        ("12 lb", "", "without its unit."),
    ],
)
def test_where_a_unit_was_typed_the_one_of_the_box_is_named(text, unit, ends):
    with pytest.raises(NumberRefused) as refusal:
        read(text, unit)

    assert refusal.value.sentence.endswith(ends)


@given(st.text(ALPHABET, max_size=45) | st.text(max_size=50))
def test_a_text_is_refused_or_gives_a_finite_number_that_prints_back_equal(text):
    try:
        number = read(text)
    except NumberRefused:
        return

    assert number.value.is_finite()
    again = read(number.canonical)
    assert (again.value, again.sign) == (number.value, number.sign)
    assert (
        again.canonical == number.canonical == Number.stored(number.canonical).canonical
    )


@given(st.decimals("-99999", "99999", places=4))
def test_comma_and_point_are_the_same_mark(value):
    text = f"{value:f}"

    assert read(text.replace(".", ",")).value == read(text).value


def test_a_computed_number_shows_no_exponent_and_no_minus_nought():
    assert Number.of(Decimal("1E+3")).canonical == "1000"
    assert Number.of(Decimal("-0.0")).canonical == "0.0"
    assert Number.of(Decimal(316), ">").text == ">316"
    assert Number(text="x", value=Decimal("-0")).canonical == "0"


@pytest.mark.parametrize("value", ["NaN", "sNaN", "Infinity", "-Infinity"])
def test_a_computed_number_is_finite(value):
    with pytest.raises(NumberRefused, match="no finite number"):
        Number.of(Decimal(value))


def test_a_stored_number_may_have_more_digits_than_one_types():
    assert (
        Number.stored("273.6666666666666666666666667").value.as_tuple().exponent == -25
    )


@pytest.mark.parametrize("text", ["1e3", "+5", "5.", "", " 5", "NaN", "٢", "1,5"])
def test_a_stored_number_is_canonical(text):
    with pytest.raises(NumberRefused, match="not a stored number"):
        Number.stored(text)


def test_a_refusal_is_a_value_error_with_its_sentence():
    assert issubclass(NumberRefused, Refused)
    assert issubclass(Refused, ValueError)
    assert Refused("Do this.").sentence == "Do this."


def test_a_fraction_becomes_a_decimal_of_28_digits_whatever_the_context():
    with localcontext() as context:
        context.prec = 3
        third = to_decimal(Fraction(821, 3))

    assert third == Decimal("273.6666666666666666666666667")
    assert to_decimal(Fraction(561, 2)) == Decimal("280.5")
    assert to_decimal(7) == Decimal(7)
    assert to_decimal(Decimal("2.50")).as_tuple().exponent == -2


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        (Fraction(821, 3), 2, "273.67"),
        (Decimal("280.0"), 2, "280"),
        (Decimal("-0.004"), 2, "0"),
        (Decimal("8.670"), 3, "8.67"),
        (Decimal(100), 0, "100"),
    ],
)
def test_a_number_in_a_sentence_is_short(value, places, text):
    assert shortened(value, places) == text


@pytest.mark.parametrize(
    ("text", "places", "kept"),
    [("5", 1, "5.0"), ("-0.5", 2, "-0.50"), ("4.125", 2, "4.125"), ("5", 0, "5")],
)
def test_a_number_keeps_the_places_that_carry_meaning(text, places, kept):
    assert padded(text, places) == kept


@pytest.mark.parametrize(
    "fraction",
    [Fraction(290, 3), Fraction(308, 3), Fraction(-1681, 6), Fraction(28, 10023)],
)
def test_a_computed_value_stands_for_the_fraction_that_it_was_cut_from(fraction):
    assert Number.of(to_decimal(fraction)).exact == fraction


@pytest.mark.parametrize(
    "text",
    [
        "27.9",
        "0.1428571428571",
        "1.414213562373095048801688724",  # a root, which no simple fraction gives
        "96.66666666666666666666666666",  # thirds cut, not rounded
        "0.3333333333333333333333333333333",
    ],
)
def test_any_other_value_stands_for_itself(text):
    assert Number.stored(text).exact == Fraction(text)
