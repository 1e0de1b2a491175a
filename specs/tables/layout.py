"""Where on a sheet the tables lie: titles, heads, units, data. Found by looking, shown to the person, never assumed silently."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Block:
    """One table of a sheet; rows count from 1, columns are letters in order."""

    key: str  # "Sheet1!A2:I14"
    sheet: str
    titles: tuple[int, ...]  # rows above the head that are no data
    heads: tuple[int, ...]  # one row, or two where the head has two lines
    units_row: int | None
    first: int
    last: int
    letters: tuple[str, ...]
    headings: Mapping[str, str]  # letter -> the head's words, as they stand
    units: Mapping[str, str]  # letter -> the unit that its head or units row states
    fingerprint: str  # of the headings: the same layout comes again
