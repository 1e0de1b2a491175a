"""A workbook (.xlsx) to sheets: values by calamine, the rest by looking at its parts."""

import io
import zipfile
from collections.abc import Sequence
from decimal import Decimal
from itertools import zip_longest
from typing import Any

from lims.sheets.reading.cells import column_of, columns_of, hours_of
from lims.sheets.reading.found import Workbook
from lims.sheets.reading.guard import opened
from lims.sheets.reading.marks import Marks, marks_of
from lims.sheets.reading.parts import CLOCK, PER_CENT, Place, book_of, comments_of
from lims.sheets.reading.refusing import CELLS, FileRefused, damaged, too_many_cells
from specs.tables.sheet import (
    DAY,
    EMPTY,
    FAULT,
    FORMULA,
    MOMENT,
    NUMBER,
    TEXT,
    Column,
    Merged,
    Sheet,
    letter_of,
)

NO_DAY = (
    "Sheet “{name}” has a cell that is formatted as a date and holds a number too large to "
    "be one. Format it as a number, or correct it, and bring the workbook in again."
)


def read(content: bytes) -> Workbook:
    """Every sheet that holds something; raises FileRefused."""
    with opened(content) as archive:
        book = book_of(archive)
        marks = {
            place.name: marks_of(archive, place.part, place.name, book.signs)
            for place in book.places
        }
        span = sum(it.bottom * it.right for it in marks.values())
        if span > CELLS:
            raise too_many_cells("The workbook", span)
        values = _Values(content)
        sheets: list[Sheet] = []
        notes: list[str] = []
        for place in book.places:
            seen = marks[place.name]
            sheet = _sheet(archive, place, values, seen, is_1904=book.is_1904)
            if sheet is not None:
                sheets.append(sheet)
                notes += _notes(place, seen, len(sheet.notes))
    if not sheets:
        raise FileRefused(
            "No sheet of the workbook holds anything. Bring in a workbook with a table."
        )
    return Workbook(tuple(sheets), notes=tuple(notes))


class _Values:
    """The cells as calamine reads them."""

    def __init__(self, content: bytes) -> None:
        from python_calamine import CalamineError, CalamineWorkbook

        self.trouble = CalamineError
        try:
            self.book = CalamineWorkbook.from_filelike(io.BytesIO(content))
        except CalamineError as why:
            raise damaged("its cells cannot be read") from why

    def of(self, name: str) -> tuple[list[list[Any]], tuple[Merged, ...]]:
        """The rows from the first of the sheet, and what is merged."""
        if name not in self.book.sheet_names:
            raise damaged(f"sheet “{name}” cannot be found")
        try:
            sheet = self.book.get_sheet_by_name(name)
            # Else rows above the first that holds something are left out, and every
            # row behind them would carry a wrong number.
            rows = sheet.to_python(skip_empty_area=False)
            ranges = sheet.merged_cell_ranges or []
        except self.trouble as why:
            raise damaged(f"the cells of sheet “{name}” cannot be read") from why
        except (OverflowError, ValueError) as why:
            raise FileRefused(NO_DAY.format(name=name)) from why
        merged = (
            Merged(top + 1, left + 1, bottom + 1, right + 1)
            for (top, left), (bottom, right) in ranges
        )
        return rows, tuple(merged)


def _sheet(
    archive: zipfile.ZipFile,
    place: Place,
    values: _Values,
    marks: Marks,
    *,
    is_1904: bool,
) -> Sheet | None:
    rows, merged = values.of(place.name)
    columns = _columns(rows, marks, is_1904=is_1904)
    if not columns:
        return None
    return Sheet(
        name=place.name,
        columns=columns,
        merged=merged,
        hidden_rows=frozenset(marks.hidden_rows),
        notes=comments_of(archive, place.part),
        is_1904=is_1904,
    )


def _columns(
    rows: list[list[Any]], marks: Marks, *, is_1904: bool
) -> tuple[Column, ...]:
    height = max(len(rows), marks.bottom)
    filled = [*zip_longest(*rows, fillvalue="")]
    filled += [()] * (marks.right - len(filled))
    texts, kinds = [], []
    for place, values in enumerate(filled, 1):
        some, others = column_of(values, letter_of(place))
        texts.append(some + [""] * (height - len(some)))
        kinds.append(others + [EMPTY] * (height - len(others)))
    _mark(texts, kinds, marks, is_1904=is_1904)
    return columns_of(texts, kinds)


def _mark(
    texts: list[list[str]], kinds: list[list[str]], marks: Marks, *, is_1904: bool
) -> None:
    """Put in what the values do not tell."""
    for (row, column), sign in marks.signs.items():
        text, kind = texts[column - 1][row - 1], kinds[column - 1][row - 1]
        shown = _as_shown(text, kind, sign, is_1904=is_1904)
        if shown != text:
            texts[column - 1][row - 1], kinds[column - 1][row - 1] = shown, TEXT
    for (row, column), fault in marks.faults.items():
        texts[column - 1][row - 1] = fault
        kinds[column - 1][row - 1] = FAULT
    for row, column in marks.formulas:
        if row <= marks.bottom and column <= marks.right:
            kinds[column - 1][row - 1] = FORMULA


def _as_shown(text: str, kind: str, sign: str, *, is_1904: bool) -> str:
    """A cell as its form shows it: 0.032 as 3.2 %, 38 as 38 psi, a day and an hour as 25:00:00."""
    if sign == CLOCK:
        return hours_of(text, is_1904=is_1904) if kind in (DAY, MOMENT) else text
    if kind != NUMBER:
        return text
    if sign != PER_CENT:
        return f"{text} {sign}"
    return f"{format((Decimal(text) * 100).normalize(), 'f')} %"


def _notes(place: Place, marks: Marks, comments: int) -> Sequence[str]:
    """What there is to tell of one sheet."""
    told = []
    if place.is_hidden:
        told.append("is hidden; it was read too")
    if marks.hidden_rows:
        told.append(f"has {_counted(len(marks.hidden_rows), 'hidden row')}, read too")
    if marks.hidden_columns:
        letters = ", ".join(letter_of(it) for it in sorted(marks.hidden_columns))
        what = _counted(len(marks.hidden_columns), "hidden column")
        told.append(f"has {what} ({letters}), read too")
    if marks.formulas:
        told.append(f"has {_counted(len(marks.formulas), 'cell')} with a formula")
    if comments:
        where = "its cell" if comments == 1 else "their cells"
        told.append(f"has {_counted(comments, 'comment')}, kept with {where}")
    return [f"Sheet “{place.name}” {it}." for it in told]


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
