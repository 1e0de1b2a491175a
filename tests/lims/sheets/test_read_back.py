"""What leaves as CSV or as a workbook is read back as it stood in the program: text without the quote put before it, numbers as numbers."""

import datetime as dt
from decimal import Decimal

import pytest

from lims.sheets.exports import Column, csv_lines, workbook
from lims.sheets.reading import read
from specs.tables.sheet import FORMULA, NUMBER

TEXTS = [
    *("=HYPERLINK(1)", "+1+1", "-5.2", "@SUM", "'=1", "''-1", "'quoted'"),
    *("plain, with a comma", 'with "quotes"', "two\nlines", "Größe µ", "＝1"),
]
COLUMNS = [Column("Text"), Column("Value", "kPa"), Column("Day")]
DAY = dt.date(2026, 3, 4)


def rows():
    return [[text, Decimal("-5.20"), DAY] for text in TEXTS]


def csv():
    return "".join(csv_lines(COLUMNS, rows())).encode()


def xlsx():
    return workbook("Ours", COLUMNS, rows())


@pytest.mark.parametrize(("made", "name"), [(csv, "ours.csv"), (xlsx, "ours.xlsx")])
def test_every_text_comes_back_as_it_stood(made, name):
    (sheet,) = read(made(), name).sheets

    assert sheet.row(1) == ["Text", "Value", "Day"]
    assert sheet.row(2) == ["", "kPa", ""]
    found = [sheet.text("A", row) for row in range(3, sheet.height + 1)]
    assert found == TEXTS


def test_a_negative_number_comes_back_as_that_number():
    for made, name, text in ((csv, "a.csv", "-5.20"), (xlsx, "a.xlsx", "-5.2")):
        (sheet,) = read(made(), name).sheets
        assert {sheet.text("B", row) for row in range(3, sheet.height + 1)} == {text}


def test_of_a_workbook_no_cell_is_read_as_a_formula():
    (sheet,) = read(xlsx(), "ours.xlsx").sheets

    assert FORMULA not in sheet.by_letter["A"].kinds
    assert set(sheet.by_letter["B"].kinds[2:]) == {NUMBER}
    assert sheet.text("C", 3) == "2026-03-04"
