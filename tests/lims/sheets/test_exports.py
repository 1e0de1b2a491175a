"""What leaves as CSV or as a workbook: typed cells, units, and no text that becomes a formula."""

import csv
import datetime as dt
import io
from decimal import Decimal

import openpyxl
import pytest

from lims.record.refusals import WrongMove
from lims.sheets import exports
from lims.sheets.exports import Column, columns, csv_lines, typed, workbook, yes_no

COLUMNS = [Column("Order"), Column("Net mass", "kg"), Column("Issued", "CET")]
MOMENT = dt.datetime(2026, 3, 9, 9, 40)  # noqa: DTZ001 - as it stands on the clock


def read_csv(rows):
    text = "".join(csv_lines(COLUMNS, rows)).removeprefix("\ufeff")
    return list(csv.reader(io.StringIO(text)))


def sheet_of(rows):
    return openpyxl.load_workbook(io.BytesIO(workbook("Papers", COLUMNS, rows))).active


def test_heads_and_units_stand_first():
    heads, units = read_csv([])

    assert heads == ["Order", "Net mass", "Issued"]
    assert units == ["", "kg", "CET"]


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@sum", "\tx", "\rx"])
def test_a_text_that_looks_like_a_formula_gets_a_quote_in_csv(text):
    assert read_csv([[text, None, None]])[2][0] == f"'{text}"


def test_numbers_keep_their_sign_and_their_decimals_in_csv():
    assert read_csv([["x", Decimal("-2.50"), MOMENT]])[2] == [
        *("x", "-2.50"),
        "2026-03-09 09:40",
    ]


def test_a_long_table_is_written_line_by_line():
    endless = iter(lambda: ["x", 1, None], None)
    lines = csv_lines(COLUMNS, endless)

    assert [next(lines) for _ in range(4)][-1] == "x,1,\r\n"


def test_the_workbook_keeps_text_as_text_and_numbers_as_numbers():
    order, mass, issued = sheet_of([["=1+1", Decimal("234.50"), MOMENT]])[3]

    assert (order.value, order.data_type) == ("=1+1", "s")
    assert (mass.value, mass.number_format) == (234.5, "0.00")
    assert (issued.value, issued.is_date) == (MOMENT, True)


def test_days_and_counts_have_their_own_form():
    day = dt.date(2026, 3, 9)
    _, count, on = sheet_of([["x", 4, day]])[3]

    assert (count.value, count.number_format) == (4, "0")
    assert on.number_format == "yyyy-mm-dd"


def test_signs_that_no_workbook_can_hold_are_left_out():
    assert sheet_of([["a\x00b\x0bc", None, None]])[3][0].value == "abc"


def test_an_empty_value_is_an_empty_cell():
    assert sheet_of([["", None, None]])[3][0].value is None


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("281", Decimal(281)),
        ("-2.50", Decimal("-2.50")),
        ("0.40", Decimal("0.40")),
        (">300", ">300"),
        ("1a", "1a"),
        ("", ""),
        ("1e5", "1e5"),
        ("1234567890123456", "1234567890123456"),
    ],
)
def test_a_stored_number_is_a_number_and_nothing_else_is(text, value):
    found = typed(text)

    assert (str(found), type(found)) == (str(value), type(value))


def test_a_text_stays_text_in_a_workbook_when_it_is_edited_there():
    order, *_ = sheet_of([["=1+1", None, None]])[3]
    plain, *_ = sheet_of([["TT-1", None, None]])[3]

    assert (order.quotePrefix, plain.quotePrefix) == (True, False)


def test_a_text_longer_than_a_cell_is_cut_in_a_workbook():
    long = "x" * (exports.LONGEST + 1)

    assert sheet_of([[long, None, None]])[3][0].value == "x" * exports.LONGEST


def test_more_rows_than_a_sheet_holds_are_refused_with_what_to_do(monkeypatch):
    monkeypatch.setattr(exports, "MOST_ROWS", 3)
    workbook("Papers", COLUMNS, [["x", 1, None]])

    with pytest.raises(WrongMove, match="Narrow it, or take it as CSV"):
        workbook("Papers", COLUMNS, [["x", 1, None]] * 2)


def test_a_unit_is_given_by_the_head_that_it_stands_under():
    found = columns("Order", "Net mass", net_mass="kg")

    assert found == [Column("Order"), Column("Net mass", "kg")]


def test_what_is_so_leaves_as_a_word():
    assert (yes_no(is_so=True), yes_no(is_so=False)) == ("yes", "no")
