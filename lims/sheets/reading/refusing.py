"""Why a file cannot be read, in sentences that say what to do; and how large a file may be."""

from specs.numbers import Refused

MiB = 1 << 20
LARGEST = 25 * MiB  # of the file as it came
UNPACKED = 200 * MiB  # a sheet of 100 000 rows and 8 columns is 35
SURELY_SMALL = 10 * MiB  # below it, how well a file was packed says nothing
RATIO = 100  # unpacked to packed; honest sheets have about 10
PARTS = 500
ROWS = 1_000_000
COLUMNS = 500
CELLS = 5_000_000  # of all sheets, with the empty ones between
CELL = 10_000  # characters
LINE = 100_000  # characters of one line of a text file; csv takes a cell of 131 072

SAVE_AS = (
    "Open it in a spreadsheet program, save it as .xlsx or .csv and bring that in."
)


class FileRefused(Refused):
    """A file that cannot be brought in; its text says why and what to do."""


def spaced(count: int) -> str:
    """A count as it is written: 1 000 000."""
    return f"{count:,}".replace(",", " ")


def damaged(what: str) -> FileRefused:
    """A workbook that is not what it says of itself."""
    return FileRefused(
        f"The workbook is damaged or not whole ({what}). Open it in a spreadsheet program, "
        "save it anew and bring the new file in."
    )


def too_large(what: str, bound: str) -> FileRefused:
    """More than is read; `what` opens the sentence."""
    return FileRefused(
        f"{what}; {bound} can be read. Delete what is not needed or split it, and bring "
        "the parts in one by one."
    )


def too_many_rows(what: str, row: int) -> FileRefused:
    """More rows than are read."""
    return too_large(f"{what} reaches to row {spaced(row)}", f"{spaced(ROWS)} rows")


def too_many_columns(what: str, columns: int) -> FileRefused:
    """More columns than are read."""
    return too_large(f"{what} has {spaced(columns)} columns", f"{COLUMNS} columns")


def too_many_cells(what: str, count: int) -> FileRefused:
    """More cells than are read."""
    return too_large(
        f"{what} spans {spaced(count)} cells, empty ones among them",
        f"{spaced(CELLS)} cells",
    )


def too_long(place: str, length: int) -> FileRefused:
    """A cell with more text than a cell of a table holds."""
    return FileRefused(
        f"{place} holds {spaced(length)} characters; {spaced(CELL)} can be read. Shorten it "
        "and bring the file in again."
    )
