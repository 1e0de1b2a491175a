"""A table of results of earlier batches, looked at whole: each cell, each row, every question, and the lines that would be taken in."""

from collections.abc import Iterable

from specs.tables.checked import Checked
from specs.tables.known import Known, Role, Uses
from specs.tables.layout import Block
from specs.tables.lines import lines_of
from specs.tables.numbers.sets import combine, groups_of
from specs.tables.reading import Table, read_others
from specs.tables.rows import one_a_row
from specs.tables.rows.repeated import drop_repeated
from specs.tables.rows.roles import roles
from specs.tables.rows.whose import read_heads
from specs.tables.saying import Answers, Question
from specs.tables.sheet import Sheet, place_of


def checked(
    sheet: Sheet, block: Block, uses: Uses, answers: Answers, known: Known
) -> Checked:
    """What becomes of a table of results, as far as it was answered; nothing is taken while anything is asked.

    Numbers come in the unit of their characteristic, days in ISO 8601. The value of a
    cell that waits or is refused is what is proposed for it, if anything. Each different
    text of a column is read once; equal cells share one Said. Raises nothing for what
    stands in cells.
    """
    found, joined = roles(block, sheet, uses, answers.instead)
    table = Table(sheet, block, uses, answers, known, list(found), dict(joined))
    rows = read_heads(table)
    is_long = one_a_row.is_meant(table)
    if is_long:
        one_a_row.read(table, rows)
    read_others(table, rows)
    groups = groups_of(table)
    letters = table.letters(Role.RESULT)
    sets = {letter: combine(table, letter, groups) for letter in letters}
    drop_repeated(table, groups)
    lines = one_a_row.lines_of(table) if is_long else ()
    if letters or not is_long:
        lines += lines_of(table, groups, sets)
    return Checked(
        block=block,
        said=table.said,
        roles=table.roles,
        joined=table.joined,
        held=table.held,
        questions=_in_order(table.waiting),
        answered=_in_order(table.answered),
        lines=lines,
    )


def _in_order(questions: Iterable[Question]) -> tuple[Question, ...]:
    """From the left to the right, in the order in which they arose."""
    return tuple(sorted(questions, key=lambda it: place_of(it.column)))
