"""The cells of one column as they are read: each different one once, with what was written instead."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from specs.tables.cells import Cells, cells_of, written_instead
from specs.tables.saying import Answers, Fate, Said
from specs.tables.sheet import EMPTY, TEXT, Sheet

Key = tuple[str, str]  # what the file says of a cell, and its text
NOTHING = Said(Fate.EMPTY)
_BARE: Key = (EMPTY, "")


@dataclass(frozen=True)
class Seen:
    """The cells of a column, and by place the texts written instead."""

    cells: Cells
    instead: Mapping[int, str] = field(default_factory=dict)

    def keys(self) -> list[Key]:
        """What is to be read at each place."""
        keys = list(zip(self.cells.kinds, self.cells.texts, strict=True))
        for place, text in self.instead.items():
            keys[place] = (TEXT, text)
        return keys

    def grouped(self) -> dict[Key, list[int]]:
        """The places of each different cell that holds anything."""
        found: defaultdict[Key, list[int]] = defaultdict(list)
        for place, key in enumerate(self.keys()):
            found[key].append(place)
        return {key: it for key, it in found.items() if key[1] and not key[1].isspace()}

    def spread(self, said: Mapping[Key, Said]) -> list[Said]:
        """What becomes of each cell, by what stands in it."""
        column = [said.get(key, NOTHING) for key in self.keys()]
        for place, row in self.cells.filled.items():
            if place not in self.instead:
                told = f"as in {self.cells.letter}{row}"
                column[place] = _told(column[place], told)
        for place in self.instead:
            column[place] = _told(column[place], _instead(self.cells.texts[place]))
        return column


def seen_of(
    sheet: Sheet,
    letter: str,
    rows: Sequence[int],
    answers: Answers,
    *,
    apart: frozenset[int] = frozenset(),
) -> Seen:
    """The cells of a column in these rows; `apart` are rows that belong to the one above.

    A result that the file shows across the rows of one set is one reading and not
    several; a ditto mark is one more.
    """
    shown = frozenset(row for row in apart if not sheet.text(letter, row).strip())
    cells = _by_place(cells_of(sheet, letter, rows), shown)
    return Seen(cells, written_instead(cells, answers))


def _by_place(cells: Cells, apart: frozenset[int]) -> Cells:
    """The same cells, those filled told by their place."""
    if not cells.filled:
        return cells
    texts, kinds = list(cells.texts), list(cells.kinds)
    filled = {}
    for place, row in enumerate(cells.rows):
        if row not in cells.filled:
            continue
        if row in apart:
            texts[place], kinds[place] = _BARE[1], _BARE[0]
        else:
            filled[place] = cells.filled[row]
    return replace(cells, texts=texts, kinds=kinds, filled=filled)


def _instead(was: str) -> str:
    return f"written instead of “{was}”" if was else "written where nothing stood"


def _told(said: Said, rule: str) -> Said:
    """A cell whose text comes from elsewhere says so."""
    fate = Fate.CONVERTED if said.fate is Fate.TAKEN else said.fate
    return replace(
        said, fate=fate, rule="; ".join(it for it in (rule, said.rule) if it)
    )
