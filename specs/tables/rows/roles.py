"""What each row of a table is: data, a row that belongs to the one above, a repeated head, a summary, a title."""

from collections.abc import Mapping, Sequence

from specs.tables.known import Uses
from specs.tables.layout import Block
from specs.tables.rows.seen import Seen, seen
from specs.tables.saying import RowRole
from specs.tables.sheet import FORMULA, Sheet

Joined = dict[int, int]
WHY = {
    RowRole.TITLE: "A title or a remark: no column that is wanted has anything here.",
    RowRole.HEAD: "The head of the table again.",
    RowRole.UNITS: "The units of the columns.",
    RowRole.SUMMARY: "A summary of other rows, or their limits: no results of its own.",
    RowRole.DUPLICATE: "The same as row {of}, which is taken once.",
    RowRole.BLANK: "Nothing stands here.",
}


def roles(
    block: Block, sheet: Sheet, uses: Uses, instead: Mapping[str, str] | None = None
) -> tuple[list[RowRole], Joined]:
    """One role for each row from the block's first to its last, and to which row each continuation belongs.

    A continuation has neither batch nor day of its own, or ditto marks, or stands in the
    cells that the file shows as one; it joins the data row that it belongs to, never another
    continuation. Past a blank row nothing is joined. DUPLICATE and HELD are not found here.
    `instead`: texts written instead of cells, by address. Raises nothing.
    """
    it = seen(block, sheet, uses, instead or {})
    found: list[RowRole] = []
    joined: Joined = {}
    owner: int | None = None
    for place in range(it.count):
        role = _role(it, place, owner)
        if role is RowRole.CONTINUATION:
            of = _data_row(it, place, owner, found, joined)
            role = RowRole.DATA if of is None else role
            if of is not None:
                joined[place] = of
        found.append(role)
        if role is RowRole.DATA:
            owner = place
        elif role is not RowRole.CONTINUATION:
            owner = None
    return found, {block.first + one: block.first + of for one, of in joined.items()}


def why(role: RowRole, of: int | None = None) -> str:
    """Why a row was taken for what it is, in a sentence to be shown; empty for data. `of` is the row that it joins."""
    if role is RowRole.CONTINUATION:
        return f"No batch and no day of its own: taken as belonging to row {of}."
    return WHY.get(role, "").format(of=of)


def notes(block: Block, sheet: Sheet) -> tuple[str, ...]:
    """What a person should know of the rows of a table: hidden ones are data too."""
    hidden = sorted(
        row for row in sheet.hidden_rows if block.first <= row <= block.last
    )
    if not hidden:
        return ()
    shown = ", ".join(str(row) for row in hidden[:10])
    rest = f" and {len(hidden) - 10} more" if len(hidden) > 10 else ""
    return (f"Hidden in the file, and read as the others: row {shown}{rest}.",)


def _role(it: Seen, place: int, owner: int | None) -> RowRole:
    """The role of one row, below the data row `owner` if nothing stands between."""
    if place in it.repeats:
        return it.repeats[place]
    if it.has_key(place):
        return _of_keyed(it, place, owner)
    return _of_keyless(it, place, owner)


def _of_keyed(it: Seen, place: int, owner: int | None) -> RowRole:
    """A row with a batch or a day."""
    if place in it.summaries and it.has_summary_key(place):
        return RowRole.SUMMARY
    if it.is_title(place):
        return RowRole.TITLE
    if place in it.spanned and not it.has_other_day(place):
        return RowRole.CONTINUATION
    if place in it.dittos and owner is not None and not it.has_other_day(place):
        return RowRole.CONTINUATION
    return RowRole.DATA


def _of_keyless(it: Seen, place: int, owner: int | None) -> RowRole:
    """A row with neither batch nor day."""
    wanted = it.wanted(place)
    if not wanted:
        return RowRole.TITLE if it.has_any(place) else RowRole.BLANK
    if place in it.summaries or all(kind == FORMULA for kind in wanted):
        return RowRole.SUMMARY
    if place in it.spanned:
        return RowRole.CONTINUATION
    if owner is None or not it.batch_letter or it.has_other_product(place, owner):
        return RowRole.DATA
    return RowRole.CONTINUATION


def _data_row(
    it: Seen, place: int, owner: int | None, found: Sequence[RowRole], joined: Joined
) -> int | None:
    """The data row that a continuation belongs to: the top of the cells shown as one, else the one above."""
    top = it.spanned.get(place)
    if top is None:
        return owner
    return top if found[top] is RowRole.DATA else joined.get(top)
