"""A text file of columns to one sheet."""

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, zip_longest
from pathlib import PurePath

from lims.sheets.neutral import bare
from lims.sheets.reading import dividing, steady
from lims.sheets.reading.cells import check_length, columns_of
from lims.sheets.reading.decoding import decoded
from lims.sheets.reading.found import AS_FOUND, DELIMITERS, How, Workbook
from lims.sheets.reading.refusing import (
    CELLS,
    COLUMNS,
    LINE,
    ROWS,
    FileRefused,
    spaced,
    too_large,
    too_many_cells,
    too_many_columns,
    too_many_rows,
)
from specs.tables.sheet import EMPTY, TEXT, Column, Sheet, letter_of

FILE = "The file"
NO_DELIMITER = "\x1f"  # divides nothing: one column
END = "\0"  # stands behind the last line; no text holds one
LONGEST_TITLE = 60
MOST_BREAKS = 30  # in one cell
BY_BLANKS = "The columns were told by the blanks between them. Check that no value stands in the wrong one."
RUN_OVER = (
    "Cells that run over several lines: {count}, the first is {first}. Rows are counted as "
    "a spreadsheet counts them, not by lines."
)
_DIRECTIVE = re.compile(r'"?sep=([;,\t|])"?\s*', re.I)


def read(content: bytes, name: str, how: How = AS_FOUND) -> Workbook:
    """One sheet named after the file; raises FileRefused."""
    if how.delimiter and how.delimiter not in DELIMITERS:
        raise FileRefused("Choose one of the delimiters that are offered.")
    text, encoding, told = decoded(content, how.encoding)
    lines = _lines(text)
    said = _DIRECTIVE.fullmatch(lines[0]) if lines else None
    if said:
        lines[0] = "\n"
    delimiter = how.delimiter or (said and said[1]) or dividing.delimiter_of(lines)
    notes = list(told)
    if delimiter == steady.BLANKS:
        rows = list(steady.rows(lines))
        notes.append(BY_BLANKS)
    else:
        rows = list(_rows(lines, delimiter or NO_DELIMITER))
        notes += _broken(rows)
    title = " ".join(PurePath(name).stem.split())[:LONGEST_TITLE]
    sheet = Sheet(title or "file", _columns(rows))
    if not sheet.columns:
        raise FileRefused("The file holds no text. Bring in a file that holds a table.")
    return Workbook((sheet,), How(encoding, delimiter), tuple(notes))


def _lines(text: str) -> list[str]:
    """The lines, each with its end, however it was written."""
    lines = io.StringIO(text.replace("\r\n", "\n").replace("\r", "\n")).readlines()
    if len(lines) > ROWS:
        raise too_many_rows(FILE, len(lines))
    for number, line in enumerate(lines, 1):
        if len(line) > LINE:
            raise too_large(
                f"Line {spaced(number)} has {spaced(len(line))} characters",
                f"{spaced(LINE)} a line",
            )
    return lines


def _rows(lines: Iterable[str], delimiter: str) -> Iterator[list[str]]:
    """The cells of each row; a row may take several lines where a cell is quoted."""
    reader = csv.reader(chain(lines, [END]), delimiter=delimiter)
    begins = last = 1
    try:
        for row in reader:
            if row == [END]:
                return
            if len(row) > COLUMNS:
                row[COLUMNS:] = _rest(row, begins)
            if reader.line_num - begins > MOST_BREAKS:
                raise _unclosed(begins)
            yield row
            last, begins = begins, reader.line_num + 1
    except csv.Error as why:
        raise _unclosed(begins) from why
    raise _unclosed(last)


def _rest(row: Sequence[str], line: int) -> list[str]:
    """Nothing, if what stands beyond the last column is only delimiters."""
    if any(row[COLUMNS:]):
        raise too_many_columns(f"Line {spaced(line)}", len(row))
    return []


def _unclosed(line: int) -> FileRefused:
    return FileRefused(
        f'A quotation mark (") that begins a cell in line {spaced(line)} or just below is '
        "not closed, so that the lines after it run into one cell. Put a second mark where "
        "the cell ends, or take the mark away, and bring the file in again."
    )


def _broken(rows: Sequence[Sequence[str]]) -> list[str]:
    """Tell of cells that run over several lines: seldom meant, and rows are counted past them."""
    where = [
        f"{letter_of(place)}{number}"
        for number, row in enumerate(rows, 1)
        for place, text in enumerate(row, 1)
        if "\n" in text
    ]
    if not where:
        return []
    return [RUN_OVER.format(count=len(where), first=where[0])]


def _columns(rows: Sequence[Sequence[str]]) -> tuple[Column, ...]:
    width = max(map(len, rows), default=0)
    if width * len(rows) > CELLS:
        raise too_many_cells(FILE, width * len(rows))
    texts, kinds = [], []
    for place, values in enumerate(zip_longest(*rows, fillvalue=""), 1):
        some = _cells(values, letter_of(place))
        texts.append(some)
        kinds.append([TEXT if text else EMPTY for text in some])
    return columns_of(texts, kinds)


def _cells(values: Iterable[str], letter: str) -> list[str]:
    """The texts of one column; equal texts are one in memory."""
    seen: dict[str, str] = {"": ""}
    texts = []
    for row, value in enumerate(values, 1):
        text = seen.get(value)
        if text is None:
            check_length(value, f"{letter}{row}")
            text = seen[value] = _plain(value)
        texts.append(text)
    return texts


def _plain(text: str) -> str:
    """The text as it was meant: blanks alone say nothing, and our own exports' quote is theirs."""
    return bare(text) if text.strip() else ""
