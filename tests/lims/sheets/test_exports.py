"""What leaves as CSV or as a workbook: typed cells, units, and no text that becomes a formula."""

import csv
import datetime as dt
import io
from decimal import Decimal

import openpyxl
import pytest

from lims.sheets.exports import Column, csv_lines, workbook

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
