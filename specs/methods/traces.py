"""A curve as an instrument writes it: a text of two columns, time in minutes and signal.

Columns are parted by a tab, a semicolon or a comma; with the first two the decimal mark
may be a comma. One line of headings may come first. Numbers are kept exactly.
"""

import re
from dataclasses import dataclass
from decimal import Decimal

from specs.numbers import LONGEST_TEXT, Refused

Points = tuple[tuple[Decimal, Decimal], ...]

MOST_POINTS = 100_000
LARGEST = 15  # digits before the decimal mark
_CELL = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?")


class TraceRefused(Refused):
    """A text that is no curve; the sentence names the line."""


@dataclass(frozen=True)
class Trace:
    """The points of a curve in the order of time, and its headings where it has any."""

    points: Points
    headings: tuple[str, str] | None = None


def read_trace(text: str) -> Trace:
    """The curve of a text with two columns. Raises TraceRefused naming the line."""
    lines = [
        (place, line.strip())
        for place, line in enumerate(text.lstrip("\ufeff").splitlines(), 1)
        if line.strip()
    ]
    parted = _parted_by(text)
    headings = None
    if lines and _is_heading(_cells(lines[0][1], parted), parted):
        place, line = lines.pop(0)
        headings = _two(place, _cells(line, parted), parted)
    if not lines:
        raise TraceRefused(
            "The file holds no points: it needs two columns, time in minutes and signal."
        )
    if len(lines) > MOST_POINTS:
        raise TraceRefused(
            f"The file has {len(lines)} points, more than {MOST_POINTS}: "
            "write it from the instrument with fewer points a minute."
        )
    points = tuple(_point(place, line, parted) for place, line in lines)
    for (place, _), (before, _), (after, _) in zip(
        lines[1:], points, points[1:], strict=False
    ):
        if after <= before:
            raise TraceRefused(
                f"Line {place}: the time {after:f} does not come after {before:f}. "
                "Write the file again in the order of time, each time once."
            )
    return Trace(points, headings)


def _parted_by(text: str) -> str:
    """The mark between the columns: the first of tab, semicolon, comma that occurs."""
    return next((mark for mark in "\t;," if mark in text), ",")


def _cells(line: str, parted: str) -> list[str]:
    cells = [cell.strip().strip('"').strip() for cell in line.split(parted)]
    return cells[:-1] if len(cells) > 2 and not cells[-1] else cells


def _is_heading(cells: list[str], parted: str) -> bool:
    return all(_number(cell, parted) is None for cell in cells)


def _two(place: int, cells: list[str], parted: str) -> tuple[str, str]:
    if len(cells) == 2:
        return cells[0], cells[1]
    hint = ""
    if parted == "," and len(cells) > 2:
        hint = " With decimal commas the columns are parted by a semicolon or a tab."
    columns = "1 column" if len(cells) == 1 else f"{len(cells)} columns"
    raise TraceRefused(
        f"Line {place} has {columns}, not 2: keep time and signal alone.{hint}"
    )


def _point(place: int, line: str, parted: str) -> tuple[Decimal, Decimal]:
    time, signal = (
        _kept(place, cell, parted) for cell in _two(place, _cells(line, parted), parted)
    )
    return time, signal


def _kept(place: int, cell: str, parted: str) -> Decimal:
    found = _number(cell, parted)
    if found is None or (found != 0 and found.adjusted() >= LARGEST):
        shown = "".join(mark if mark.isprintable() else "?" for mark in cell)
        raise TraceRefused(
            f"Line {place}: “{shown[:LONGEST_TEXT]}” is no number: "
            "each line after the headings holds a time and a signal."
        )
    return found


def _number(cell: str, parted: str) -> Decimal | None:
    plain = cell if parted == "," else cell.replace(",", ".")
    return Decimal(plain) if _CELL.fullmatch(plain) else None
