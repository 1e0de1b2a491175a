"""One table while it is read: its rows and what they are, its columns one after the other, the questions that arise."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from specs.tables.asking import CELL, Column, count_of, is_answered
from specs.tables.cells import Cells
from specs.tables.known import Known, Measured, Role, Use, Uses
from specs.tables.layout import Block
from specs.tables.numbers.values import read_numbers
from specs.tables.saying import Answers, Fate, Question, RowRole, Said
from specs.tables.seen import NOTHING, Key, seen_of
from specs.tables.sheet import Sheet
from specs.tables.texts.marks import read_marks
from specs.tables.texts.naming import read_texts

NUMBERS = ("number", "ladder")
LIVE = (RowRole.DATA, RowRole.CONTINUATION)
SETTLED = (Fate.TAKEN, Fate.CONVERTED)
OF_ANOTHER_ROW = Said(Fate.LEFT_OUT)
WITH_ITS_ROW = Said(Fate.LEFT_OUT, why="its row is left out.")
WRITTEN = "written instead"
NOT_READ = {  # as a column by itself; a second one of them is not wanted
    Role.LEFT_OUT, Role.BATCH, Role.DAY, Role.PRODUCT, Role.TESTED, Role.FOUND,
}  # fmt: skip
NOT_WANTED = Said(Fate.LEFT_OUT, rule="the column is left out")
_MM = re.compile(r"(?<![\d/] )(?<![\d/])\bmm\b")

Reader = Callable[[Column, Mapping[Key, Sequence[int]]], dict[Key, Said]]


@dataclass
class Table:
    """A table as far as it is read."""

    sheet: Sheet
    block: Block
    uses: Uses
    answers: Answers
    known: Known
    roles: list[RowRole]
    joined: dict[int, int]
    said: dict[str, list[Said]] = field(default_factory=dict)
    waiting: list[Question] = field(default_factory=list)
    answered: list[Question] = field(default_factory=list)
    held: dict[int, str] = field(default_factory=dict)
    out: set[int] = field(default_factory=set)  # rows left out for good

    def letters(self, *roles: Role) -> list[str]:
        """The columns taken for one of these, from the left."""
        uses = self.uses
        return [
            it for it in self.block.letters if it in uses and uses[it].role in roles
        ]

    def letter(self, role: Role) -> str:
        """The first column taken for this; empty where there is none."""
        return next(iter(self.letters(role)), "")

    def rows(self, *roles: RowRole) -> list[int]:
        """The rows that are one of these."""
        first = self.block.first
        return [place + first for place, it in enumerate(self.roles) if it in roles]

    def role(self, row: int) -> RowRole:
        """What a row is."""
        return self.roles[row - self.block.first]

    def at(self, letter: str, row: int) -> Said:
        """What becomes of one cell."""
        return self.said[letter][row - self.block.first]

    def measured(self, letter: str) -> Measured | None:
        """What a column of results measures, if it is known."""
        return self.known.characteristics.get(self.uses[letter].characteristic)

    def column(self, letter: str, rows: Sequence[int]) -> Column:
        """A column to be asked about."""
        heading = " ".join(self.block.headings.get(letter, "").split())
        out = frozenset(place for place, row in enumerate(rows) if row in self.out)
        return Column(letter, heading, rows, self.answers.choices, out)

    def ask(self, questions: Iterable[Question]) -> None:
        """Keep questions, those that were answered apart."""
        for it in questions:
            is_done = is_answered(it, self.answers.choices)
            (self.answered if is_done else self.waiting).append(it)

    def put(self, letter: str, rows: Sequence[int], said: Sequence[Said]) -> None:
        """Say what becomes of the cells of a column in some rows; the others are no results."""
        column = self._others(letter)
        first = self.block.first
        for row, it in zip(rows, said, strict=True):
            column[row - first] = it
        self.said[letter] = column
        for address, note in self.sheet.notes.items():
            self._tell_note(letter, address, note)

    def _others(self, letter: str) -> list[Said]:
        """A column before anything is read in it: empty, or left out with its row."""
        held = self.sheet.by_letter.get(letter)
        first, last = self.block.first, self.block.last
        texts = held.texts[first - 1 : last] if held else ()
        said = [OF_ANOTHER_ROW if text.strip() else NOTHING for text in texts]
        return said + [NOTHING] * (last - first + 1 - len(said))

    def _tell_note(self, letter: str, address: str, note: str) -> None:
        row = address.removeprefix(letter)
        if not row.isdigit() or not self.block.first <= int(row) <= self.block.last:
            return
        place = int(row) - self.block.first
        said = self.said[letter][place]
        told = f"the cell has a comment: “{' '.join(note.split())[:200]}”"
        rule = "; ".join(it for it in (said.rule, told) if it)
        self.said[letter][place] = replace(said, rule=rule)


def read_column(table: Table, letter: str, rows: Sequence[int], reader: Reader) -> None:
    """Read one column in these rows, and say what becomes of its cells."""
    table.put(letter, rows, read_cells(table, letter, rows, reader))


def read_cells(
    table: Table, letter: str, rows: Sequence[int], reader: Reader, *, of: str = ""
) -> list[Said]:
    """What becomes of the cells of one column in these rows, each different cell read once.

    Rows that are left out are read too, so that a question does not change while others
    are answered; they raise none. `of` tells the questions of several reads of a column apart.
    """
    apart = frozenset(
        row for row in table.joined if table.role(row) is RowRole.CONTINUATION
    )
    seen = seen_of(table.sheet, letter, rows, table.answers, apart=apart)
    column = replace(table.column(letter, rows), of=of)
    said = seen.spread(reader(column, seen.grouped()))
    for place in column.out:
        said[place] = said[place] if said[place] is NOTHING else WITH_ITS_ROW
    table.ask(column.questions)
    if seen.instead:
        table.answered.append(_written(column, seen.cells, seen.instead))
    return said


def _written(column: Column, cells: Cells, instead: Mapping[int, str]) -> Question:
    """What was written instead of cells, to be seen and written anew."""
    return Question(
        key=column.key(WRITTEN),
        column=column.letter,
        matter=WRITTEN,
        level=CELL,
        sentence=f"{count_of(sorted(instead))} of {column.name} written instead.",
        choices=(),
        cells=tuple(cells.address(place) for place in sorted(instead)),
        count=len(instead),
        takes_text=True,
    )


def read_others(table: Table, rows: Sequence[int]) -> None:
    """Read every column but those that say of which batch, day and product a row is."""
    for letter in table.block.letters:
        if letter in table.said:
            continue
        use = table.uses.get(letter, Use(Role.LEFT_OUT))
        reader = _reader(table, letter, use, rows)
        if reader is None:
            _leave_out(table, letter)
        else:
            read_column(table, letter, rows, reader)


def _leave_out(table: Table, letter: str) -> None:
    table.put(letter, (), ())
    table.said[letter] = [
        it if it is NOTHING else NOT_WANTED for it in table.said[letter]
    ]


def _reader(table: Table, letter: str, use: Use, rows: Sequence[int]) -> Reader | None:
    if use.role == Role.RESULT:
        return _reader_of_results(table, letter, use, rows)
    if use.role in NOT_READ:
        return None
    return lambda column, places: read_texts(column, use.role, places)


def _reader_of_results(
    table: Table, letter: str, use: Use, rows: Sequence[int]
) -> Reader | None:
    """What reads a column of results; nothing where nobody knows what it measures."""
    measured = table.measured(letter)
    return reader_of(table, measured, use.unit, rows) if measured else None


def reader_of(
    table: Table, measured: Measured, unit: str, rows: Sequence[int]
) -> Reader:
    """What reads results of a characteristic, in a unit that is stated or not."""
    if measured.kind not in NUMBERS:
        return lambda column, places: read_marks(column, measured, places)
    remarks = table.letters(Role.REMARK)
    texts = [table.sheet.by_letter[it].texts for it in remarks if it in table.sheet.by_letter]  # fmt: skip

    def says_mm(place: int) -> bool:
        row = rows[place]
        return any(row <= len(it) and _MM.search(it[row - 1]) for it in texts)

    return lambda column, places: read_numbers(column, measured, unit, places, says_mm)  # fmt: skip
