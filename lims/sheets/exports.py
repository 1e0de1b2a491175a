"""Tables on their way out, as CSV or as a workbook: typed cells, a row of units, text that no program takes for a formula."""

import csv
import datetime as dt
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import islice
from typing import TYPE_CHECKING

from lims.record.refusals import WrongMove
from lims.sheets.neutral import SIGNS, neutral

if TYPE_CHECKING:
    from openpyxl.cell import Cell
    from openpyxl.styles import Font

Value = str | int | Decimal | dt.date | dt.datetime | None
Row = Sequence[Value]

BYTE_ORDER_MARK = "\ufeff"  # tells a spreadsheet that the text is UTF-8
UNWRITABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
DAY, MOMENT = "yyyy-mm-dd", "yyyy-mm-dd hh:mm"
MOST_ROWS = 1_048_576  # of one sheet, the two at its head included
LONGEST = 32_767  # characters of one cell of a workbook
_NUMBER = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,15})?")


@dataclass(frozen=True)
class Column:
    """The head of a column, and the unit of its values where they have one."""

    head: str
    unit: str = ""


@dataclass(frozen=True)
class Export:
    """One list on its way out. The key names it in the address and names the file; the rows are fetched as they are written."""

    key: str
    columns: Sequence[Column]
    rows: Iterable[Row]


class _Line:
    """What csv writes to: each line is handed on as soon as it is made."""

    def write(self, text: str) -> str:
        return text


def columns(*heads: str, **units: str) -> list[Column]:
    """Columns by their heads; a unit is given by the head in small letters: `mass="kg"`."""
    return [
        Column(head, units.get(head.lower().replace(" ", "_"), "")) for head in heads
    ]


def typed(text: str) -> Value:
    """A stored number as a number; a bound such as `>300`, a mark or words as they stand."""
    return Decimal(text) if _NUMBER.fullmatch(text) else text


def yes_no(*, is_so: bool) -> str:
    """`yes` or `no`: what a reader of either language and either program sees alike."""
    return "yes" if is_so else "no"


def csv_lines(columns: Sequence[Column], rows: Iterable[Row]) -> Iterator[str]:
    """The table line by line: heads, units, then a line a row."""
    writer = csv.writer(_Line())
    yield BYTE_ORDER_MARK + str(writer.writerow([_plain(it.head) for it in columns]))
    yield str(writer.writerow([_plain(it.unit) for it in columns]))
    for row in rows:
        yield str(writer.writerow([_plain(value) for value in row]))


def _plain(value: Value) -> str:
    """A value as text; numbers keep their sign, text that would be reckoned with gets a quote before it."""
    if value is None:
        return ""
    if isinstance(value, dt.datetime):
        return value.strftime("%Y-%m-%d %H:%M")
    if isinstance(value, Decimal):
        return format(value, "f")
    return neutral(value) if isinstance(value, str) else str(value)


def workbook(title: str, columns: Sequence[Column], rows: Iterable[Row]) -> bytes:
    """A workbook of one sheet. Times are written as they stand, without a zone: the unit names it.

    Raises WrongMove when the rows are more than a sheet holds.
    """
    from openpyxl import Workbook  # late, as below: it loads numpy
    from openpyxl.styles import Font

    book = Workbook(write_only=True)
    sheet = book.create_sheet(title[:31])
    sheet.freeze_panes = "A3"
    bold = Font(bold=True)
    sheet.append([_cell(sheet, it.head, font=bold) for it in columns])
    sheet.append([_cell(sheet, it.unit) for it in columns])
    fitting = iter(rows)
    for row in islice(fitting, MOST_ROWS - 2):
        sheet.append([_cell(sheet, value) for value in row])
    out = io.BytesIO()
    book.save(out)
    if next(fitting, None) is not None:
        raise WrongMove(
            f"This list has more rows than the {MOST_ROWS:,} of a sheet. "
            "Narrow it, or take it as CSV."
        )
    return out.getvalue()


def _cell(sheet: object, value: Value, *, font: "Font | None" = None) -> "Cell | None":
    from openpyxl.cell import WriteOnlyCell

    if value is None or value == "":
        return None
    if isinstance(value, str):
        cell = _text(WriteOnlyCell(sheet, ""), UNWRITABLE.sub("", value)[:LONGEST])
    else:
        cell = WriteOnlyCell(sheet, value)
        cell.number_format = _format(value)
    if font is not None:
        cell.font = font
    return cell


def _text(cell: "Cell", text: str) -> "Cell":
    """Text in a cell that stays text, also when somebody edits it there."""
    cell.value = text
    cell.data_type = "s"  # else a text that begins with = becomes a formula
    if text.startswith(SIGNS):
        cell.quotePrefix = True
    return cell


def _format(value: int | Decimal | dt.date | dt.datetime) -> str:
    """Days and times as such; a number with as many decimals as it has."""
    if isinstance(value, dt.datetime):
        return MOMENT
    if isinstance(value, dt.date):
        return DAY
    exponent = value.as_tuple().exponent if isinstance(value, Decimal) else 0
    decimals = -exponent if isinstance(exponent, int) and exponent < 0 else 0
    return f"0.{'0' * decimals}" if decimals else "0"
