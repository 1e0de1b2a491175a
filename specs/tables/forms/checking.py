"""The check of a table against its form: every cell read, every objection asked once, what was answered done."""

from collections.abc import Mapping, Sequence

from specs.tables.checked import Checked
from specs.tables.forms import asking
from specs.tables.forms.form import Form
from specs.tables.forms.kept import Kept
from specs.tables.forms.objections import Objection, Objects, no_objection
from specs.tables.forms.reading import read_all
from specs.tables.forms.table import Table, begun
from specs.tables.layout import Block
from specs.tables.saying import Answers, Fate, Question
from specs.tables.sheet import Sheet

MOST_ROUNDS = 8  # an answer can raise the next question


def check(
    form: Form,
    sheet: Sheet,
    block: Block,
    mapping: Mapping[str, str],
    *,
    answers: Answers,
    kept: Kept,
    objects: Objects = no_objection,
) -> Checked:
    """What becomes of each cell of a table, what is asked, and the rows that would be taken.

    `objects` tells what the laboratory's own rules hold against rows whose cells can be
    read. Raises nothing.
    """
    table = begun(form, sheet, block, mapping, answers)
    blocking = asking.about_columns(form, block, mapping)
    if blocking:
        return checked(table, blocking)
    read_all(table, sheet, kept, answers)
    for _ in range(MOST_ROUNDS):
        objections = against(table, objects)
        if not asking.settle(table, objections, answers):
            break
    asking.ask(table, objections)
    return checked(table)


def checked(table: Table, blocking: Sequence[Question] = ()) -> Checked:
    """What is known of the table, as it is shown."""
    questions = [*blocking, *asking.in_order(table, table.questions.values())]
    taken = [it for it in table.rows() if not table.is_open(it.row)]
    return Checked(
        block=table.block,
        said=table.said,
        roles=table.roles,
        joined=table.joined,
        held=table.held,
        questions=tuple(questions),
        answered=tuple(asking.in_order(table, table.answered.values())),
        rows=() if blocking else tuple(taken),
    )


def against(table: Table, objects: Objects) -> list[Objection]:
    """Everything that stands against the table's cells and rows and was not settled."""
    found = [*_of_cells(table), *_missing(table)]
    open_rows = {it.row for it in found} | {
        row for row in table.data if table.is_open(row)
    }
    found += [it for it in objects(table.rows()) if it.row not in open_rows]
    return [it for it in found if (it.row, it.key, it.matter) not in table.settled]


def _of_cells(table: Table) -> list[Objection]:
    """Cells that cannot be read and that no other question is about."""
    found = []
    for key in table.letters:
        choices = asking.choices_for(table.form.column(key))
        for row in table.data:
            said = table.at(row, key)
            if said.fate == Fate.REFUSED and said.question not in table.questions:
                found.append(Objection(row, key, said.why, "cannot be read", choices))
    return found


def _missing(table: Table) -> list[Objection]:
    """Blank cells of columns that every row needs."""
    needed = [
        it for it in table.form.columns if it.required and it.key in table.letters
    ]
    return [
        Objection(
            row,
            it.key,
            f"The {it.heading.lower()} is missing: write it, or leave the row out.",
            "missing",
        )
        for it in needed
        for row in table.data
        if table.at(row, it.key).fate in (Fate.EMPTY, Fate.LEFT_OUT)
        and (row, it.key) not in table.given
    ]
