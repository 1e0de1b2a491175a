"""One table while it is read as a form: its rows, what became of each cell, and what was decided about them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from specs.tables.cells import Cells, cells_of
from specs.tables.checked import Row
from specs.tables.forms.cells import BLANK
from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.forms.proposing import LEFT_OUT
from specs.tables.layout import Block
from specs.tables.saying import Answers, Fate, Question, RowRole, Said
from specs.tables.sheet import EMPTY, TEXT, Sheet

OUT = Said(Fate.LEFT_OUT)
OPEN = (Fate.REFUSED, Fate.ASKS)
OF_NAMES = (Reads.NAME, Reads.CHOICE)
Place = tuple[int, str]  # row, and key of the form's column


@dataclass
class Table:
    """What is known of a table so far. `cells` and `said` go by letter, one place a row."""

    form: Form
    block: Block
    letters: Mapping[str, str]  # key -> letter
    roles: list[RowRole]
    cells: dict[str, Cells]
    said: dict[str, list[Said]]
    joined: dict[int, int] = field(default_factory=dict)
    held: dict[int, str] = field(default_factory=dict)
    given: dict[Place, str] = field(default_factory=dict)  # by an answer
    settled: set[tuple[int, str, str]] = field(default_factory=set)
    questions: dict[str, Question] = field(default_factory=dict)
    answered: dict[str, Question] = field(default_factory=dict)

    @property
    def data(self) -> list[int]:
        """The rows that hold something and stand, counted as in the sheet."""
        return [
            self.block.first + place
            for place, role in enumerate(self.roles)
            if role in (RowRole.DATA, RowRole.CONTINUATION)
        ]

    def letter(self, key: str) -> str:
        """The letter of a form's column, or where questions about it stand when it has none."""
        anchor = self.letters.get(self.form.anchor, self.block.letters[0])
        return self.letters.get(key, anchor)

    def is_of_names(self, key: str) -> bool:
        """Whether a column holds names or choices: the same text means the same in each row."""
        return key in self.letters and self.form.column(key).reads in OF_NAMES

    def text(self, row: int, key: str) -> str:
        """The text that a cell was read from."""
        return self.cells[self.letters[key]].texts[row - self.block.first]

    def at(self, row: int, key: str) -> Said:
        """What became of a cell by the key of its column; blank where the column is missing."""
        letter = self.letters.get(key)
        return self.said[letter][row - self.block.first] if letter else BLANK

    def put(self, row: int, key: str, said: Said) -> None:
        """Say anew what becomes of a cell."""
        letter = self.letters.get(key)
        if letter is not None:
            self.said[letter][row - self.block.first] = said

    def is_open(self, row: int) -> bool:
        """Whether a cell of the row is refused or waits for an answer."""
        return any(self.at(row, key).fate in OPEN for key in self.letters)

    def row(self, row: int) -> Row:
        """The values of one row under the names of the form's columns."""
        values = {
            key: said.value
            for key in self.letters
            if (said := self.at(row, key)).fate in (Fate.TAKEN, Fate.CONVERTED)
        }
        given = {key: text for (at, key), text in self.given.items() if at == row}
        return Row(row, {**values, **given})

    def rows(self) -> list[Row]:
        """Every row that stands, with what of it can be taken."""
        return [self.row(row) for row in self.data]

    def hold(self, row: int, why: str) -> None:
        """Leave a row out, whole."""
        self.held[row] = why
        place = row - self.block.first
        self.roles[place] = RowRole.HELD
        for column in self.said.values():
            if column[place].fate != Fate.EMPTY:
                column[place] = Said(Fate.LEFT_OUT, why=why)


def begun(
    form: Form, sheet: Sheet, block: Block, mapping: Mapping[str, str], answers: Answers
) -> Table:
    """The table with the roles of its rows and the texts of its cells, none of them read yet."""
    letters = {key: it for it, key in mapping.items() if key != LEFT_OUT}
    rows = range(block.first, block.last + 1)
    cells = {it: cells_of(sheet, it, rows) for it in block.letters}
    for key, letter in letters.items():
        reads = form.column(key).reads
        if reads in OF_NAMES:
            cells[letter] = _named_anew(cells[letter], answers)
        elif reads != Reads.DAY:  # days are read with what stands instead
            cells[letter] = written(cells[letter], answers)
    table = Table(
        form, block, letters, roles=_roles(block, cells, letters), cells=cells, said={}
    )
    for letter in block.letters:
        table.said[letter] = [
            OUT if text.strip() else BLANK for text in cells[letter].texts
        ]
    fill_down(table)
    return table


def written(cells: Cells, answers: Answers) -> Cells:
    """The cells with the texts that were written instead."""
    first = cells.rows[0] if cells.rows else 0
    own = {
        int(figures): text
        for address, text in answers.instead.items()
        if (figures := address.removeprefix(cells.letter)).isdecimal()
        and address != figures
    }
    if not own:
        return cells
    texts, kinds = list(cells.texts), list(cells.kinds)
    for row, text in own.items():
        place = row - first
        if 0 <= place < len(texts):
            texts[place], kinds[place] = text, TEXT if text.strip() else EMPTY
    return replace(cells, texts=texts, kinds=kinds)


def _named_anew(cells: Cells, answers: Answers) -> Cells:
    """The cells of a column of names: what is written instead of one goes for all that say the same."""
    anew = {
        text: instead
        for place, text in enumerate(cells.texts)
        if text.strip()
        and (instead := answers.instead.get(cells.address(place))) is not None
    }
    again = {
        cells.address(place): anew[text]
        for place, text in enumerate(cells.texts)
        if text in anew
    }
    return written(cells, Answers(instead={**again, **answers.instead}))


def _roles(
    block: Block, cells: Mapping[str, Cells], letters: Mapping[str, str]
) -> list[RowRole]:
    mapped = [cells[it] for it in letters.values()]
    heads = [block.headings.get(it, "").strip() for it in letters.values()]
    roles = []
    for place in range(block.last - block.first + 1):
        texts = [it.texts[place].strip() for it in mapped]
        if not any(texts):
            roles.append(RowRole.BLANK)
        elif texts == heads:
            roles.append(RowRole.HEAD)
        else:
            roles.append(RowRole.DATA)
    return roles


def fill_down(table: Table) -> None:
    """Let a blank cell stand for the one above it, in the columns where that is meant."""
    columns = [
        it for it in table.form.columns if it.fills_down and it.key in table.letters
    ]
    for place, column in enumerate(columns):
        _fill(table, column, columns[0] if place else None)


def _fill(table: Table, column: FormColumn, first: FormColumn | None) -> None:
    letter = table.letters[column.key]
    cells = table.cells[letter]
    texts, kinds, filled = list(cells.texts), list(cells.kinds), dict(cells.filled)
    above: int | None = None
    for row in table.data:
        place = row - table.block.first
        if texts[place].strip():
            above = row
        elif above is not None and (first is None or _stays(table, first, row)):
            texts[place] = texts[above - table.block.first]
            kinds[place] = kinds[above - table.block.first]
            filled[row] = above
            if first is None:
                table.roles[place] = RowRole.CONTINUATION
                table.joined[row] = above
        else:
            above = None
    table.cells[letter] = replace(cells, texts=texts, kinds=kinds, filled=filled)


def _stays(table: Table, first: FormColumn, row: int) -> bool:
    """Whether the row still belongs to what the row above is about."""
    cells = table.cells[table.letters[first.key]]
    place = row - table.block.first
    same = place > 0 and cells.texts[place] == cells.texts[place - 1]
    return row in cells.filled or same
