"""One formatter shows every number: sign, decimal mark, unit."""

from decimal import Decimal

import pytest

from lims.wording.numbers import counts, shown, unit_shown, with_unit


@pytest.mark.parametrize(
    ("value", "signed", "english", "german"),
    [
        ("280", False, "280", "280"),
        ("22", True, "+22", "+22"),
        ("-3", False, "−3", "−3"),
        ("−3", True, "−3", "−3"),
        ("0", True, "0", "0"),
        ("-0.0", False, "0.0", "0,0"),
        ("0.50", False, "0.50", "0,50"),
        ("27,9", False, "27.9", "27,9"),
        ("27.9", False, "27.9", "27,9"),
        (">288", False, ">288", ">288"),
        ("> 288", False, ">288", ">288"),
        ("<0.5", True, "<+0.5", "<+0,5"),
        (Decimal("279.67"), False, "279.67", "279,67"),
        (Decimal("1E+3"), False, "1000", "1000"),
        (Decimal("100000"), False, "100000", "100000"),
        (7, True, "+7", "+7"),
        ("1b", False, "1b", "1b"),
        ("smooth, amber", False, "smooth, amber", "smooth, amber"),
        ("", False, "", ""),
        (None, False, "", ""),
    ],
)
def test_a_result_is_shown_as_typed_with_the_marks_of_its_language(
    value: str | Decimal | int | None, signed: bool, english: str, german: str
) -> None:
    assert shown(value, "en", signed=signed) == english
    assert shown(value, "de", signed=signed) == german


def test_digits_of_another_script_are_left_as_they_were_typed() -> None:
    assert shown("٢٨٠", "de") == "٢٨٠"


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (60, "60"),
        (5400, "5\u00a0400"),
        (100_000, "100\u00a0000"),
        (-1200, "−1\u00a0200"),
    ],
)
def test_a_count_has_a_space_that_does_not_break_between_thousands(
    number: int, words: str
) -> None:
    assert counts(number) == words


def test_a_unit_that_begins_with_a_figure_is_written_as_a_factor() -> None:
    assert unit_shown("0.1 mm") == "×\u00a00.1\u00a0mm"
    assert unit_shown("0.1 mm", "de") == "×\u00a00,1\u00a0mm"


def test_a_value_and_its_unit_never_part_at_the_end_of_a_line() -> None:
    assert with_unit("28", "0.1 mm") == "28\u00a0×\u00a00.1\u00a0mm"
    assert with_unit("2.8", "%", "de") == "2,8\u00a0%"
    assert with_unit("21", "0.1 mm", signed=True).startswith("+21\u00a0")


def test_a_unit_without_a_value_says_nothing() -> None:
    assert with_unit(None, "°C") == ""
    assert with_unit("1b", "") == "1b"
