"""The whole outcome of a look at one table: what becomes of each cell and row, what is asked, what would be taken in."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from specs.tables.layout import Block
from specs.tables.saying import Fate, Line, Question, RowRole, Said


@dataclass(frozen=True)
class Row:
    """One row of a table that is no table of results, under the names of its columns: a product, a check, a sample."""

    row: int
    values: Mapping[str, str]


@dataclass(frozen=True)
class Checked:
    """What was found in one table of a sheet.

    `said` and `roles` have one place for each row from the block's first to its last.
    `joined` leads from a row that adds to another, or repeats it, to that other one.
    """

    block: Block
    said: Mapping[str, Sequence[Said]]
    roles: Sequence[RowRole]
    joined: Mapping[int, int] = field(default_factory=dict)
    held: Mapping[int, str] = field(default_factory=dict)  # row -> why
    questions: tuple[Question, ...] = ()  # those without an answer, first to last
    answered: tuple[Question, ...] = ()
    lines: tuple[Line, ...] = ()  # of results of earlier batches
    rows: tuple[Row, ...] = ()  # of every other kind

    @property
    def is_ready(self) -> bool:
        """Whether nothing is asked any more."""
        return not self.questions

    def at(self, letter: str, row: int) -> Said:
        """What becomes of one cell."""
        return self.said[letter][row - self.block.first]

    def role(self, row: int) -> RowRole:
        """What a row of the block is."""
        return self.roles[row - self.block.first]

    @property
    def counts(self) -> dict[str, int]:
        """How many cells have each fate, how many rows each role, how many lines and values come of it."""
        with_values = [it for it in self.lines if it.values]
        fates = Counter(it.fate for column in self.said.values() for it in column)
        roles = Counter(self.roles)
        return {
            **{f"cells {fate.value}": fates[fate] for fate in Fate},
            **{f"rows {role.value}": roles[role] for role in RowRole},
            "batches": len({it.batch for it in self.lines}),
            "batches with values": len({it.batch for it in with_values}),
            "lines": len(with_values) or len(self.rows),
            "values": sum(len(it.values) for it in self.lines),
            "questions": len(self.questions),
        }
