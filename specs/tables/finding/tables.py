"""Tables on a sheet: where their heads and units stand, where they begin and end."""

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from specs.tables.finding.heading_words import is_key, plain
from specs.tables.finding.heads import Head, headings, heads_of, titles_above
from specs.tables.finding.region import Region, whole
from specs.tables.finding.unit_words import unit_in, unit_of
from specs.tables.layout import Block
from specs.tables.sheet import Sheet


def blocks_of(sheet: Sheet) -> tuple[Block, ...]:
    """The tables of a sheet, from the top and from the left.

    A table has a head (one or two lines, a row of units beneath), or, where no row looks
    like one, the rows as they stand and empty headings. Blank rows, a head that is repeated
    and summaries at the foot are part of it; another head begins another table, beside or below.
    Raises nothing; none where no two filled cells stand side by side.
    """
    region = whole(sheet)
    blocks = _tables(region) if region else []
    return tuple(sorted(blocks, key=_reading_order))


def fingerprint(headings: Iterable[str]) -> str:
    """SHA-256 of the headings in order, whatever their case, spaces and marks."""
    words = "\x1f".join(plain(it) for it in headings)
    return hashlib.sha256(words.encode("utf-8", "replace")).hexdigest()


def _reading_order(block: Block) -> tuple[int, int, str]:
    row = (*block.heads, block.first)[0]
    return row, len(block.letters[0]), block.letters[0]


def _tables(region: Region) -> list[Block]:
    """The tables of a region: beside each other first, then below each other."""
    groups = _side_by_side(region)
    if len(groups) > 1:
        return [block for it in groups for block in _tables(it)]
    heads = heads_of(region)
    bands = _bands(region, heads)
    if len(bands) > 1:
        return [block for it in bands for block in _tables(it)]
    block = _headed(region, heads[0]) if heads else _headless(region)
    return [block] if block else []


def _bands(region: Region, heads: Sequence[Head]) -> list[Region]:
    """One region for each head, with the titles above it."""
    starts = [
        titles_above(region, it.lines[0], before.last + 1)
        for before, it in pairwise(heads)
    ]
    ends = [*starts, len(region.rows)]
    return [
        region.part(region.letters, region.top + start, region.top + end - 1)
        for start, end in zip([0, *starts], ends, strict=True)
    ]


def _side_by_side(region: Region) -> list[Region]:
    """The region, cut where a table begins beside another: behind an empty column, or where the first heading comes again."""
    edges = [0, *(_cuts(region) or _where_it_repeats(region)), len(region.letters)]
    return [_columns(region, start, end) for start, end in pairwise(edges)]


def _columns(region: Region, start: int, end: int) -> Region:
    bottom = region.top + len(region.rows) - 1
    return region.part(region.letters[start:end], region.top, bottom)


def _cuts(region: Region) -> list[int]:
    """The columns behind an empty one from which a table of its own begins."""
    width = len(region.letters)
    empty = [not any(row[it] for row in region.rows) for it in range(width)]
    begins = [it for it in range(1, width) if empty[it - 1] and not empty[it]]
    cuts: list[int] = []
    beside: _Headed | None = None
    for it in begins:
        end = next((other for other in range(it, width) if empty[other]), width)
        beside = beside or _first_head(_columns(region, (cuts or [0])[-1], it))
        here = _first_head(_columns(region, it, end))
        if here and beside and _stands_alone(here, beside):
            cuts.append(it)
            beside = None
    return cuts


@dataclass(frozen=True)
class _Headed:
    """The first head of some columns: its lines and its words."""

    lines: tuple[int, ...]
    words: frozenset[str]


def _first_head(region: Region) -> _Headed | None:
    heads = heads_of(region)
    if not heads:
        return None
    words = headings(region, heads[0]).values()
    return _Headed(heads[0].lines, frozenset(map(plain, words)))


def _stands_alone(here: _Headed, beside: _Headed) -> bool:
    """Whether columns are a table of their own: with a batch or a day, or headed in other rows than those beside, or in the same words."""
    if any(map(is_key, here.words)):
        return True
    return not set(here.lines) & set(beside.lines) or here.words <= beside.words


def _where_it_repeats(region: Region) -> list[int]:
    """The columns in which the first heading of the first head comes again, two columns on at least."""
    heads = heads_of(region)
    if not heads:
        return []
    words = [plain(it) for it in headings(region, heads[0]).values()]
    first = next((it for it, word in enumerate(words) if word), 0)
    again = [it for it in range(first + 2, len(words)) if words[it] == words[first]]
    return again if is_key(words[first]) and len(words) - (again or [0])[-1] > 1 else []


def _headed(region: Region, head: Head) -> Block | None:
    """The table below a head."""
    filled = [it for it, many in enumerate(region.filled) if many]
    last = max((it for it in filled if it > head.last), default=head.last)
    said = headings(region, head)
    letters = _letters(region, said, head.lines[0], last)
    units = _units(region, head, said)
    return Block(
        key=_key(region, letters, head.lines[0], last),
        sheet=region.sheet.name,
        titles=tuple(region.top + it for it in filled if it < head.lines[0]),
        heads=tuple(region.top + it for it in head.lines),
        units_row=None if head.units is None else region.top + head.units,
        first=region.top + head.last + 1,
        last=region.top + last,
        letters=letters,
        headings={it: said[it] for it in letters},
        units={it: units[it] for it in letters if units[it]},
        fingerprint=fingerprint(said[it] for it in letters),
    )


def _headless(region: Region) -> Block | None:
    """Rows without a head: the columns are shown, and wait to be mapped by hand."""
    wide = [it for it, many in enumerate(region.filled) if many > 1]
    if not wide:
        return None
    filled = [it for it, many in enumerate(region.filled) if many]
    letters = _letters(region, {}, wide[0], filled[-1])
    return Block(
        key=_key(region, letters, wide[0], filled[-1]),
        sheet=region.sheet.name,
        titles=tuple(region.top + it for it in filled if it < wide[0]),
        heads=(),
        units_row=None,
        first=region.top + wide[0],
        last=region.top + filled[-1],
        letters=letters,
        headings=dict.fromkeys(letters, ""),
        units={},
        fingerprint=fingerprint("" for _ in letters),
    )


def _letters(
    region: Region, said: Mapping[str, str], start: int, last: int
) -> tuple[str, ...]:
    """The columns with a heading or with anything below it."""
    rows = region.rows[start : last + 1]
    return tuple(
        letter
        for it, letter in enumerate(region.letters)
        if said.get(letter) or any(row[it] for row in rows)
    )


def _units(region: Region, head: Head, said: Mapping[str, str]) -> dict[str, str]:
    """By letter the unit of the units row, else of the heading."""
    beneath = (
        region.rows[head.units]
        if head.units is not None
        else [""] * len(region.letters)
    )
    return {
        letter: unit_of(text) or unit_in(said[letter])
        for letter, text in zip(region.letters, beneath, strict=True)
    }


def _key(region: Region, letters: Sequence[str], start: int, last: int) -> str:
    rows = region.top + start, region.top + last
    return f"{region.sheet.name}!{letters[0]}{rows[0]}:{letters[-1]}{rows[1]}"
