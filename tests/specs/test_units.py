from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.numbers import Number, NumberRefused, read
from specs.units import ALSO, UNITS, UnitRefused, convert, named, offer


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
        ("77", "°F", "°C", "25"),
        ("32", "°F", "°C", "0"),
        ("-40", "°F", "°C", "-40"),
        ("25", "°C", "°F", "77"),
        ("0", "K", "°F", "-459.67"),
        ("8.86", "cSt", "mm²/s", "8.86"),
        ("10.02", "g", "mg", "10020"),
        ("280", "0.1 mm", "mm", "28"),
        ("28", "mm", "0.1 mm", "280"),
        ("100", "h", "min", "6000"),
        ("5", "kPa", "kPa", "5"),
        ("0.40", "kgf/cm²", "kPa", "39.2266"),
        ("250", "hPa", "kPa", "25"),
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


def test_thirds_of_a_degree_are_kept_to_28_digits():
    assert convert(Decimal(100), "°F", "°C") == Decimal("37.77777777777777777777777778")


@pytest.mark.parametrize(
    ("text", "unit", "words"),
    [
        (
            "77 °F",
            "°C",
            "is 25 °C: this box takes °C; if that is what you read, type 25.",
        ),
        ("77F", "°C", "is 25 °C"),
        ("77 ºF", "°C", "is 25 °C"),
        ("77 ℉", "°C", "is 25 °C"),
        ("77 deg F", "°C", "is 25 °C"),
        ("77,9 °f", "°C", "type 25.5."),
        ("-40 °F", "°C", "type -40."),
        ("100 °F", "°C", "is 37.78 °C"),
        ("<550 °F", "°C", "type <287.78."),
        ("300 K", "°C", "type 26.85."),
        ("25 °C", "°F", "type 77."),
        ("12.2 psi", "kPa", "is 84.12 kPa"),
        ("110 psig", "kPa", "type 758.42."),
        ("7.58 bar", "kPa", "type 758."),
        ("0.5 kPa", "MPa", "type 0.0005."),
        ("28 mm", "0.1 mm", "is 280 × 0.1 mm: this box takes 0.1 mm"),
        ("10 mg", "g", "type 0.01."),
        ("12 psi", "mbar", "is 827.37 mbar: this box takes mbar"),
        ("0.14 bar", "mbar", "type 140."),
        ("30 Pa", "kPa", "type 0.03."),
        ("250 kgf", "N", "type 2451.66."),
        ("45 lbf", "kgf", "type 20.41."),
        ("10 kp", "N", "type 98.07."),
        ("5 P", "Pa·s", "type 0.5."),
        (
            "77 °F",
            "",
            "is 25 °C: where a box takes °C, and that is what you read, type 25.",
        ),
        ("12.2 psi", "", "12.2 for one in psi, 84.12 for one in kPa."),
        ("1 bar", "", "1 for one in bar, 100 for one in kPa."),
    ],
)
def test_a_number_in_another_unit_is_offered_converted(text, unit, words):
    assert words in offer(text, unit)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("25 °C", "°C"),
        ("280 kPa", ""),
        ("25 °C", ""),
        ("77 °F", "kPa"),
        ("77 °F", "mass %"),
        ("77 °F", "kgf"),
        ("5 mPa", "kPa"),
        ("5 Mg", "g"),
        ("100 lb", "kgf"),
        ("100 kgf", "kPa"),
        ("5 stone", "g"),
        ("77", "°C"),
        ("283 (retest)", "0.1 mm"),
        ("°F", "°C"),
        ("1.2.3 °F", "°C"),
        ("", "°C"),
    ],
)
def test_nothing_is_offered_where_nothing_is_sure(text, unit):
    assert offer(text, unit) == ""


def test_every_other_spelling_is_of_a_known_unit():
    assert set(ALSO.values()) <= set(UNITS)


@given(st.decimals("-9999", "9999", places=2), st.sampled_from(sorted(UNITS)))
def test_what_is_offered_can_be_typed(value, wanted):
    for unit in UNITS:
        sentence = offer(f"{value:f} {unit}", wanted)
        if sentence:
            typed = read(sentence.rpartition("type ")[2].removesuffix("."))
            exact = convert(Decimal(f"{value:f}"), unit, wanted)
            assert abs(typed.value - exact) <= max(abs(exact) / 1000, Decimal("0.005"))


@pytest.mark.parametrize("unit", ["", "°C"])
def test_a_typed_unit_is_refused_never_converted(unit):
    with pytest.raises(NumberRefused, match="“77 °F” is 25 °C") as refusal:
        read("77 °F", unit)

    assert refusal.value.sentence.endswith("type 25.")
    assert read("77", unit) == Number("77", Decimal(77))


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("kPa", "kPa"),
        ("kpa", "kPa"),
        ("kg/cm2", "kgf/cm²"),
        ("kp/cm²", "kgf/cm²"),
        ("at", "kgf/cm²"),
        ("0,1 mm", "0.1 mm"),
        ("0.1mm", "0.1 mm"),
        ("1/10 mm", "0.1 mm"),
        ("mass%", "mass %"),
        ("mm2/s", "mm²/s"),
        ("ºC", "°C"),
        ("Mpa", "MPa"),
        ("mpa", ""),
        ("stone", ""),
        ("", ""),
    ],
)
def test_a_unit_is_known_by_how_people_write_it(text, unit):
    assert named(text) == unit
