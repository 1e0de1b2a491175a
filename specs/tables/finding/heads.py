"""Rows that are the head of a table: words alone, over the columns of what follows."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile

from specs.tables.finding.heading_words import is_key, is_known, role_of
from specs.tables.finding.region import Region
from specs.tables.finding.unit_words import unit_of
from specs.tables.rows.words import summary_word
from specs.tables.sheet import place_of

LOOKED_AT = 12  # rows beneath a head
UNIT_LABELS = frozenset({"unit", "units", "einheit", "einheiten", "-", "–", "—", "/"})


@dataclass(frozen=True)
class Head:
    """The head of a table: the places of its lines and of its units, in its region."""

    lines: tuple[int, ...]
    units: int | None = None

    @property
    def last(self) -> int:
        """The last row that belongs to it."""
        return max((*self.lines, self.units or 0))


def heads_of(region: Region) -> list[Head]:
    """The heads in a region, from the top; one that is repeated further down counts once."""
    found: list[Head] = []
    for place in range(len(region.rows)):
        if found and place <= found[-1].last:
            continue
        if region.filled[place] < 2 or region.has_datum[place]:
            continue
        if (
            _is_first(region, place)
            if not found
            else _is_another(region, place, found[-1])
        ):
            found.append(_head(region, place))
    return found


def _is_first(region: Region, place: int) -> bool:
    """Whether a row of words can be the first head: over more than half of the columns that follow."""
    row, filled = region.rows[place], region.filled[place]
    if len({text for text in row if text}) < 2 or _is_label(region, place):
        return False
    end = min(place + 1 + LOOKED_AT, len(region.rows))
    below = range(place + 1, end)
    widest = max(takewhile(bool, (region.filled[it] for it in below)), default=0)
    known = _known(row)
    if filled * 2 < widest + (known < 2):
        return False
    is_over_data = any(region.has_datum[it] for it in below)
    return is_over_data or known >= 2 or region.is_words_alone


def _is_label(region: Region, place: int) -> bool:
    """Whether two words are a label and what it says, above a wider head of known words."""
    if region.filled[place] > 2 or _known(region.rows[place]) > 1:
        return False
    end = min(place + 1 + 2 * LOOKED_AT, len(region.rows))
    return any(
        region.filled[it] > 2
        and not region.has_datum[it]
        and _known(region.rows[it]) > 1
        for it in range(place + 1, end)
    )


def _known(row: Sequence[str]) -> int:
    return sum(1 for text in row if text and is_known(text))


def _is_another(region: Region, place: int, head: Head) -> bool:
    """Whether a row of words below a table begins another one."""
    row = region.rows[place]
    is_known_already = any(_is_same(row, region.rows[it]) for it in head.lines)
    if is_known_already or region.next_filled(place) is None:
        return False
    if any(map(is_key, row)) and _known(row) * 2 >= max(4, region.filled[place]):
        return True
    is_apart = _stands_apart(region, place, head) and _is_over_data(region, place)
    return is_apart and not any(map(summary_word, row))


def _is_same(row: Sequence[str], other: Sequence[str]) -> bool:
    """Whether two rows have mostly the same words in the same columns."""
    pairs = list(zip(row, other, strict=True))
    same = sum(1 for one, two in pairs if one and one.strip() == two.strip())
    most = max(sum(1 for text in it if text) for it in (row, other))
    return same * 5 >= most * 4


def _stands_apart(region: Region, place: int, head: Head) -> bool:
    """Whether an empty row stands above, or a title with one above it; and the rows before are no words alone."""
    above = titles_above(region, place, head.last + 1)
    is_apart = above - 1 > head.last and not region.filled[above - 1]
    start = max(head.last + 1, above - LOOKED_AT)
    return is_apart and any(region.has_datum[start:above])


def _is_over_data(region: Region, place: int) -> bool:
    head = _head(region, place)
    following = region.next_filled(head.last)
    if following is None or following != head.last + 1:
        return False
    return (
        region.has_datum[following]
        and region.filled[place] * 2 >= region.filled[following]
    )


def titles_above(region: Region, place: int, least: int) -> int:
    """The place of the first of the lines with one filled cell of words that stand right above a row."""
    while (
        place > least
        and region.filled[place - 1] == 1
        and not region.has_datum[place - 1]
    ):
        place -= 1
    return place


def _head(region: Region, place: int) -> Head:
    """The head that begins in a row: with its second line and its units, if there are any."""
    lines: tuple[int, ...] = (place,)
    units: int | None = None
    for following in range(place + 1, min(place + 3, len(region.rows))):
        if units is not None or not region.filled[following]:
            break
        if _is_units(region, following):
            units = following
        elif len(lines) == 1 and _is_second(region, place, following):
            lines = (place, following)
        else:
            break
    return Head(lines, units)


def _is_units(region: Region, place: int) -> bool:
    """Whether a row names units and nothing else; a label and strokes may stand among them."""
    texts = [text.strip() for text in region.rows[place] if text]
    units = [text for text in texts if unit_of(text)]
    others = [
        text
        for text in texts
        if not unit_of(text) and text.strip("[]()").casefold() not in UNIT_LABELS
    ]
    return bool(units) and not others


def _is_second(region: Region, place: int, following: int) -> bool:
    """Whether the row beneath a head is its second line: words that fill the gaps of the first, or leave its first column empty."""
    first, second = region.rows[place], region.rows[following]
    key = next(it for it, text in enumerate(first) if text)
    if region.filled[following] < 1:
        return False
    if region.has_datum[following]:
        return _is_of_conditions(region, place, following)
    fills = any(two and not one for one, two in zip(first, second, strict=True))
    spans = _is_spanned(region, place)
    if second[key] and not fills:
        return False
    after = region.next_filled(following)
    is_before_data = (
        after is None or region.has_datum[after] or _is_units(region, after)
    )
    return (fills or spans or not second[key]) and is_before_data


def _is_of_conditions(region: Region, place: int, following: int) -> bool:
    """Whether figures beneath a head tell its columns apart, as "0", "60" and "100 000" beneath "Penetration" do.

    They stand where one heading reaches over several columns and nowhere else; the row
    beneath them is fuller, or names units.
    """
    first, second = region.rows[place], region.rows[following]
    over = _reached(region, place, second)
    after = region.next_filled(following)
    if after is None or len(over) < 2 or is_key(first[min(over)]):
        return False
    if any(text and first[it] and it not in over for it, text in enumerate(second)):
        return False
    is_fuller = region.has_datum[after] and region.filled[after] > region.filled[following]  # fmt: skip
    return _is_units(region, after) or is_fuller


def _reached(region: Region, place: int, second: Sequence[str]) -> set[int]:
    """The columns over which one heading of a row reaches: cells shown as one, else empty ones behind it."""
    row, first = region.top + place, region.rows[place]
    spans = [it for it in region.sheet.merged if it.top <= row <= it.bottom]
    if any(it.right > it.left for it in spans):
        return {
            at
            for at, letter in enumerate(region.letters)
            for it in spans
            if it.right > it.left and it.left <= place_of(letter) <= it.right
        }
    empty = {it for it in range(1, len(first)) if second[it] and not first[it]}
    return empty | {it - 1 for it in empty if second[it - 1]}


def _is_spanned(region: Region, place: int) -> bool:
    """Whether a cell of the row reaches over several columns."""
    row = region.top + place
    return any(it.top == row and it.right > it.left for it in region.sheet.merged)


def headings(region: Region, head: Head) -> dict[str, str]:
    """By letter the words of a head; of two lines the upper one reaches over the columns that it heads."""
    upper = region.rows[head.lines[0]]
    if len(head.lines) == 1:
        return {
            letter: text.strip()
            for letter, text in zip(region.letters, upper, strict=True)
        }
    lower = region.rows[head.lines[1]]
    over = _reaching(region, head, upper, lower)
    return {
        letter: " ".join(text.strip() for text in (over[it], lower[it]) if text)
        for it, letter in enumerate(region.letters)
    }


def _reaching(
    region: Region, head: Head, upper: Sequence[str], lower: Sequence[str]
) -> list[str]:
    """The words of the upper line in every column that they head: not over one whose lower words speak for themselves."""
    over = list(upper)
    spans = _spans(region, head)
    for it, letter in enumerate(region.letters):
        if over[it] or not it:
            continue
        if letter in spans:
            over[it] = region.sheet.text(spans[letter], region.top + head.lines[0])
        elif not spans and lower[it] and lower[it - 1] and not role_of(lower[it]):
            over[it] = over[it - 1]
    return over


def _spans(region: Region, head: Head) -> dict[str, str]:
    """From a letter to the one whose cell in the head's first line reaches over it."""
    row = region.top + head.lines[0]
    by_place = {place_of(letter): letter for letter in region.letters}
    return {
        by_place[place]: by_place[it.left]
        for it in region.sheet.merged
        if it.top <= row <= it.bottom and it.left in by_place
        for place in range(it.left + 1, it.right + 1)
        if place in by_place
    }
