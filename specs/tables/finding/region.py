"""A rectangle of a sheet in which tables are looked for, with what kind of row each of its rows is."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from specs.tables.sheet import EMPTY, TEXT, Sheet, place_of

# A cell that is no heading: a number or a bound, a day, a number with its unit, a batch
# number. "100 h", "60 x" and "0,1 mm" may be headings: words follow their figures.
_DATUM = re.compile(
    r"[<>≤≥=~±+−-]?\s*[0-9]+(?:[.,:/ '-][0-9]+)*\s*[*%?]?(?:\s*\([^()]*\))?"
    r"|[0-9]{1,2}[./ -]+\w{3,9}[./ ,-]+[0-9]{2,4}"
    r"|[A-Za-z]{0,5}[0-9]{1,6}(?:[-/.][A-Za-z]{0,3}[0-9OoIl]{1,8})+"
    r"|[<>]\s*[0-9].*"
)
_FIGURE = re.compile(r"[0-9]")
LONGEST_HEADING = 80


@dataclass(frozen=True)
class Region:
    """Some columns of a sheet, between two rows; both ends belong to it."""

    sheet: Sheet
    letters: tuple[str, ...]
    top: int
    bottom: int

    @cached_property
    def rows(self) -> Sequence[tuple[str, ...]]:
        """The texts of each row, blanks alone being nothing."""
        columns = [self._texts(letter) for letter in self.letters]
        return list(zip(*columns, strict=True))

    @cached_property
    def filled(self) -> Sequence[int]:
        """How many cells are filled in each row."""
        return [len(row) - row.count("") for row in self.rows]

    def _texts(self, letter: str) -> list[str]:
        column = self.sheet.by_letter.get(letter)
        texts = list(column.texts[self.top - 1 : self.bottom]) if column else []
        texts += [""] * (self.bottom - self.top + 1 - len(texts))
        return [it if it and not it.isspace() else "" for it in texts]

    def kind(self, letter: str, place: int) -> str:
        """What the file says of the cell in the row at a place (from 0) of the region."""
        return self.sheet.kind(letter, self.top + place)

    @cached_property
    def has_datum(self) -> Sequence[bool]:
        """Whether a row has a cell that can be no heading. Each distinct text is looked at once."""
        known: dict[str, bool] = {"": False}
        return [
            self._has_datum(place, row, known) for place, row in enumerate(self.rows)
        ]

    @cached_property
    def is_words_alone(self) -> bool:
        """Whether no row has anything but words."""
        return not any(self.has_datum)

    def _has_datum(
        self, place: int, row: tuple[str, ...], known: dict[str, bool]
    ) -> bool:
        for letter, text in zip(self.letters, row, strict=True):
            if text not in known:
                known[text] = is_datum(text)
            if known[text] or (text and self.kind(letter, place) not in (TEXT, EMPTY)):
                return True
        return False

    def part(self, letters: tuple[str, ...], top: int, bottom: int) -> "Region":
        """A smaller rectangle within this one."""
        return Region(self.sheet, letters, top, bottom)

    def next_filled(self, place: int) -> int | None:
        """The place of the first row with anything in it behind this one."""
        return next(
            (it for it in range(place + 1, len(self.rows)) if self.filled[it]), None
        )


def whole(sheet: Sheet) -> Region | None:
    """The whole sheet without its empty columns at the sides; None for an empty one."""
    letters = [it.letter for it in sheet.columns]
    letters.sort(key=place_of)
    region = Region(sheet, tuple(letters), 1, sheet.height)
    places = [place for place, filled in enumerate(region.filled) if filled]
    if not places:
        return None
    return Region(sheet, tuple(letters), 1, places[-1] + 1)


def is_datum(text: str) -> bool:
    """Whether a text can be no heading."""
    plain = text.strip()
    if len(plain) > LONGEST_HEADING:
        return True
    return bool(_FIGURE.search(plain)) and bool(_DATUM.fullmatch(plain))
