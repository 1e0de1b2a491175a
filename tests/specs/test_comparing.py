from decimal import Decimal
from fractions import Fraction

import pytest

from specs.comparing import CaseRefused, Kind, Margin, agrees, number, plain
from specs.numbers import Number

NONE = Margin()


@pytest.mark.parametrize(
    ("expected", "got", "same"),
    [
        ("283.33", Fraction(850, 3), True),
        ("283.34", Fraction(850, 3), False),
        ("758", Decimal("758.42"), True),
        ("757", Decimal("758.42"), False),
        ("2.0", Decimal("2.05"), True),
        ("2.0", Decimal("2.06"), False),
        (">288", Number.of(288, ">"), True),
        (">288", Number.of(288), False),
        ("288", Number.of(288, ">"), False),
        ("288", "288", False),
        ("288", True, False),
        ("288", None, False),
        (None, Decimal(288), False),
        (None, None, True),
        (["1", "2"], [Decimal(1), Decimal(2)], True),
        (["1"], [Decimal(1), Decimal(2)], False),
        (["1"], Decimal(1), False),
        (288, Decimal(288), True),
    ],
)
def test_numbers_agree_at_the_digits_printed(expected, got, same):
    assert agrees(Kind.NUMBER, expected, got, NONE) is same


def test_a_rounded_number_agrees_only_when_it_is_the_same():
    assert agrees(Kind.ROUNDED, "12.30", Decimal("12.3"), NONE)
    assert not agrees(Kind.ROUNDED, "0.6", Decimal("0.55"), NONE)


def test_a_text_agrees_letter_by_letter():
    assert agrees(Kind.TEXT, "00", "00", NONE)
    assert not agrees(Kind.TEXT, "00", "000", NONE)
    assert agrees(Kind.TEXT, ["1", "2"], ("1", "2"), NONE)
    assert not agrees(Kind.TEXT, ["2", "1"], ("1", "2"), NONE)
    assert not agrees(Kind.TEXT, "12", ("1", "2"), NONE)


def test_a_flag_is_no_text_and_no_number():
    assert agrees(Kind.FLAG, True, True, NONE)
    assert not agrees(Kind.FLAG, False, True, NONE)
    assert not agrees(Kind.FLAG, 1, True, NONE)
    assert not agrees(Kind.FLAG, "true", True, NONE)


@pytest.mark.parametrize(
    ("case", "same"),
    [
        ({"tolerance": "0.4"}, False),
        ({"tolerance": "0.5"}, True),
        ({"tolerance": "0"}, False),
        ({"relative": "0.004"}, False),
        ({"relative": "0.005"}, True),
        ({"relative": "5e-3"}, True),
        ({"tolerance": "0.1", "relative": "0.005"}, True),
    ],
)
@pytest.mark.parametrize("kind", [Kind.NUMBER, Kind.ROUNDED])
def test_a_stated_margin_stands_in_place_of_the_digits(kind, case, same):
    assert agrees(kind, "100", Decimal("100.5"), Margin.of(case)) is same


@pytest.mark.parametrize("value", [1.5, True, None, "", "abc", "1_000", "٢", [1]])
def test_a_number_of_a_case_is_text(value):
    with pytest.raises(CaseRefused, match="tolerance"):
        number(value, "tolerance")


@pytest.mark.parametrize("text", ["1.75", "1,75", "+1.75", " 1.75 "])
def test_a_number_of_a_case_is_written_as_it_is_typed(text):
    assert number(text, "expect").value == Decimal("1.75")


@pytest.mark.parametrize("text", ["1,234.5", "1.234,5", "1,", "+", "+-1"])
def test_a_number_of_a_case_has_one_mark_and_one_sign(text):
    with pytest.raises(CaseRefused, match="write a number"):
        number(text, "expect")


def test_an_answer_stands_in_a_report_without_floats():
    got = {
        "mean": Fraction(1, 3),
        "reported": Number.of(288, ">"),
        "to": Decimal("1E+2"),
    }

    assert plain(got) == (
        '{"mean": "0.3333333333333333333333333333", "reported": ">288", "to": "100"}'
    )
