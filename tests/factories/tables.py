"""Sheets for tests, written as a list of rows, and the block that stands on them."""

import datetime as dt

from specs.tables.layout import Block
from specs.tables.sheet import Column, Sheet, letter_of


def kind_of(cell):
    """What a workbook would say of a cell."""
    if cell is None or cell == "":
        return " "
    if isinstance(cell, str):
        return "t"
    if isinstance(cell, bool):
        return "b"
    if isinstance(cell, dt.datetime):
        return "m"
    return "d" if isinstance(cell, dt.date) else "n"


def sheet(*rows, name="Sheet1", **more):
    """A sheet of these rows; cells are texts, numbers, days, or None."""
    width = max(len(row) for row in rows)
    columns = []
    for place in range(width):
        cells = [row[place] if place < len(row) else None for row in rows]
        texts = ["" if it is None else str(it) for it in cells]
        kinds = "".join(kind_of(it) for it in cells)
        columns.append(Column(letter_of(place + 1), texts, kinds))
    return Sheet(name, tuple(columns), **more)


def block(sheet, *, heads=1, units=(), units_row=None):
    """The block below so many lines of heads."""
    letters = tuple(it.letter for it in sheet.columns)
    first = (units_row or heads) + 1
    return Block(
        key=f"{sheet.name}!A1",
        sheet=sheet.name,
        titles=(),
        heads=tuple(range(1, heads + 1)),
        units_row=units_row,
        first=first,
        last=sheet.height,
        letters=letters,
        headings={it: sheet.text(it, heads) for it in letters},
        units=dict(units),
        fingerprint="f" * 64,
    )
