"""Objections as questions, once a column and matter; and what an answer does."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from specs.tables.forms.form import Form, FormColumn
from specs.tables.forms.objections import (
    CELLS,
    LEAVE_CELLS,
    LEAVE_ROWS,
    ROWS,
    TAKE,
    Objection,
)
from specs.tables.forms.proposing import LEFT_OUT
from specs.tables.forms.table import Table
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice, Fate, Question, Said
from specs.tables.sheet import place_of

MOST_SHOWN = 200  # cells of a question


def about_columns(
    form: Form, block: Block, mapping: Mapping[str, str]
) -> list[Question]:
    """What keeps the table from being read at all: a column is missing, or is there twice."""
    found = []
    keys = [key for key in mapping.values() if key != LEFT_OUT]
    for column in form.columns:
        letters = [it for it, key in mapping.items() if key == column.key]
        if column.required and not letters:
            found.append(
                _blocking(
                    block.letters[0],
                    f"no {column.key}",
                    f"No column is taken for “{column.heading}”: go back to the columns "
                    "and say which one holds it, or add it to the file.",
                )
            )
        if keys.count(column.key) > 1 and not column.is_repeated:
            found.append(
                _blocking(
                    letters[0],
                    f"{column.key} twice",
                    f"Columns {' and '.join(letters)} are both taken for "
                    f"“{column.heading}”: go back to the columns and leave one out.",
                )
            )
    return found


def _blocking(letter: str, matter: str, sentence: str) -> Question:
    return Question(f"{letter}/{matter}", letter, matter, "column", sentence, (), (), 1)


def choices_for(column: FormColumn) -> tuple[Choice, ...]:
    """What may be done about a cell that cannot be read."""
    return (LEAVE_ROWS,) if column.required else (LEAVE_CELLS, LEAVE_ROWS)


def settle(table: Table, objections: Sequence[Objection], answers: Answers) -> bool:
    """Do what was answered about these objections; whether any was answered."""
    done = False
    for key, group in _groups(table, objections).items():
        choice = answers.choices.get(key, "")
        if choice not in {it.key for it in group[0].choices}:
            continue
        table.answered.setdefault(key, _question(table, key, group))
        for objection in group:
            _apply(table, objection, choice)
        done = True
    return done


def ask(table: Table, objections: Sequence[Objection]) -> None:
    """Put every objection that is left as a question, and say so at its cells."""
    for key, group in _groups(table, objections).items():
        table.questions[key] = _question(table, key, group)
        for it in group:
            table.put(it.row, it.key, _waiting(table.at(it.row, it.key), it, key))


def _waiting(said: Said, it: Objection, key: str) -> Said:
    """A cell that waits for its question; the value of a refused one is what is offered for it, if anything."""
    if not it.is_refusal:
        return replace(said, fate=Fate.ASKS, why=it.sentence, question=key)
    offered = said.value if said.fate == Fate.REFUSED else ""
    return Said(Fate.REFUSED, offered, said.rule, it.sentence, key)


def _groups(
    table: Table, objections: Sequence[Objection]
) -> dict[str, list[Objection]]:
    found: dict[str, list[Objection]] = {}
    for it in objections:
        found.setdefault(f"{table.letter(it.key)}/{it.matter}", []).append(it)
    return found


def _question(table: Table, key: str, group: Sequence[Objection]) -> Question:
    first = group[0]
    letter = table.letter(first.key)
    shown = _shown(table, letter, group)
    return Question(
        key=key,
        column=letter,
        matter=first.matter,
        level=first.level,
        sentence=_sentence(table, group),
        choices=first.choices,
        cells=shown,
        count=len(group),
        proposed=first.proposed,
        is_refusal=first.is_refusal,
        takes_text=first.takes_text and first.key in table.letters,
    )


def _shown(table: Table, letter: str, group: Sequence[Objection]) -> tuple[str, ...]:
    """The cells of a question; of a column of names one cell for each name, as it is written anew once."""
    key = group[0].key
    if not table.is_of_names(key):
        return tuple(f"{letter}{it.row}" for it in group[:MOST_SHOWN])
    by_text: dict[str, str] = {}
    for it in group:
        cell = f"{letter}{it.row}"
        by_text.setdefault(table.text(it.row, key).strip() or cell, cell)
    return tuple(by_text.values())[:MOST_SHOWN]


def _sentence(table: Table, group: Sequence[Objection]) -> str:
    """The one sentence of a group, or the first of several with its row."""
    first = group[0]
    different = len({it.sentence for it in group})
    told = first.sentence
    if first.is_refusal and first.key not in table.letters:
        heading = table.form.column(first.key).heading
        told = f"{told} The file has no column “{heading}”: add it, or leave these rows out."
    if different == 1:
        return told
    return f"{told} (Row {first.row}, the first of {len(group)}.)"


def _apply(table: Table, objection: Objection, choice: str) -> None:
    row, key = objection.row, objection.key
    table.settled.add((row, key, objection.matter))
    if choice == ROWS:
        if row not in table.held:
            table.hold(row, f"left out: {objection.sentence}")
    elif choice == CELLS:
        table.given.pop((row, key), None)
        table.put(
            row, key, Said(Fate.LEFT_OUT, why=f"left empty: {objection.sentence}")
        )
    elif choice != TAKE:
        table.given[row, key] = objection.sets.get(choice, choice)


def in_order(table: Table, questions: Iterable[Question]) -> list[Question]:
    """What is asked of columns first, then of cells, from the left."""
    return sorted(questions, key=lambda it: (it.level != "column", place_of(it.column)))
