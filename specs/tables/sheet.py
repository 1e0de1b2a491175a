"""A sheet as it arrived: its cells as text, each with what the file says it is."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

# What the file says of a cell, one sign each.
EMPTY, TEXT, NUMBER, DAY, MOMENT, YES_NO, FORMULA, FAULT = " tndmbfe"


@dataclass(frozen=True)
class Column:
    """One column from the sheet's first row to its last.

    `texts` has one text a row, empty where the cell is; `kinds` one sign a row. A number is
    written plainly ("280.5"), a day as 2025-12-18, a moment as 2025-12-18 07:30:00, a
    formula as the value that was stored with it.
    """

    letter: str
    texts: Sequence[str]
    kinds: str


@dataclass(frozen=True)
class Merged:
    """Cells that the file shows as one: rows and columns count from 1, both ends belong to it."""

    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True)
class Sheet:
    """One sheet of a workbook, or a text file of columns."""

    name: str
    columns: tuple[Column, ...]
    merged: tuple[Merged, ...] = ()
    hidden_rows: frozenset[int] = frozenset()
    notes: Mapping[str, str] = field(default_factory=dict)  # address -> comment
    is_1904: bool = False  # the day from which the workbook counts serial dates

    @property
    def height(self) -> int:
        """How many rows it has."""
        return max((len(it.texts) for it in self.columns), default=0)

    @cached_property
    def by_letter(self) -> dict[str, Column]:
        """The columns by their letters."""
        return {it.letter: it for it in self.columns}

    def text(self, letter: str, row: int) -> str:
        """The text of one cell; rows count from 1."""
        column = self.by_letter.get(letter)
        if column is None or not 1 <= row <= len(column.texts):
            return ""
        return column.texts[row - 1]

    def kind(self, letter: str, row: int) -> str:
        """What the file says of one cell."""
        column = self.by_letter.get(letter)
        if column is None or not 1 <= row <= len(column.kinds):
            return EMPTY
        return column.kinds[row - 1]

    def row(self, row: int) -> list[str]:
        """The texts of one row, from the first column to the last."""
        return [self.text(it.letter, row) for it in self.columns]


def letter_of(place: int) -> str:
    """The letters of a column, counted from 1: A to Z, AA, AB and so on."""
    letters = ""
    while place > 0:
        place, rest = divmod(place - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def place_of(letter: str) -> int:
    """The place of a column from its letters, counted from 1."""
    place = 0
    for mark in letter:
        place = place * 26 + ord(mark) - ord("A") + 1
    return place
