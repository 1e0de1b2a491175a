"""Sheets and columns as a test types them."""

import datetime as dt

from specs.tables.cells import Cells
from specs.tables.known import Known, Measured
from specs.tables.sheet import EMPTY, TEXT, Column, Sheet, letter_of

TODAY = dt.date(2026, 2, 10)


def sheet_of(text, *, merged=(), hidden=(), kinds=None):
    """A sheet of texts, one line a row, cells between semicolons; `kinds` by address."""
    rows = [line.split(";") for line in text.strip("\n").split("\n")]
    width = max(len(row) for row in rows)
    rows = [row + [""] * (width - len(row)) for row in rows]
    columns = tuple(
        Column(
            letter_of(place + 1),
            [row[place] for row in rows],
            "".join(
                (kinds or {}).get(
                    f"{letter_of(place + 1)}{at}", TEXT if row[place] else EMPTY
                )
                for at, row in enumerate(rows, 1)
            ),
        )
        for place in range(width)
    )
    return Sheet("Sheet1", columns, tuple(merged), frozenset(hidden))


def column_of(*texts, kinds="", letter="B", first=3):
    """The cells of one column from row 3 on, all of them text unless it is said otherwise."""
    marks = kinds or "".join(TEXT if text else EMPTY for text in texts)
    return Cells(letter, range(first, first + len(texts)), texts, marks)


def known_of(*measured, products=()):
    return Known(TODAY, {it.code: it for it in measured}, frozenset(products))


def measured(code, name="", unit="", conditions=""):
    return Measured(code, name or code, conditions, unit)
