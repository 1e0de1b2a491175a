"""The lines that would be taken in: one for each batch and day, with its values and the cells they come from."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from specs.tables.beside import beside
from specs.tables.known import Measured, Role
from specs.tables.numbers.sets import Combined
from specs.tables.numbers.single import NOT_TESTED
from specs.tables.reading import NUMBERS, SETTLED, Table
from specs.tables.rows.repeated import same_samples
from specs.tables.rows.whose import product_of_all
from specs.tables.saying import Line, RowRole, Said, Value
from specs.tables.texts.marks import is_bare

Groups = Mapping[int, Sequence[int]]
Sets = Mapping[str, Mapping[int, Sequence[Combined]]]  # by letter, then by first row
NAMES = {
    Role.KETTLE: "kettle", Role.PACK: "pack", Role.PLACE: "place",
    Role.INSTRUMENT: "instrument", Role.PERSON: "person",
}  # fmt: skip


Told = tuple[str, str, bool, str]  # value, rule, whether it is words, where it lies


@dataclass(frozen=True)
class Results:
    """A column of results while its values are told; what equal cells of a product say is told once."""

    letter: str
    measured: Measured
    said: Sequence[Said]
    texts: Sequence[str]
    told: dict[tuple[int, str], Told | None] = field(default_factory=dict)


def lines_of(table: Table, groups: Groups, sets: Sets) -> tuple[Line, ...]:
    """A line for each row of data whose batch, day and product are settled."""
    telling = _Telling(table, groups, sets)
    lines = [telling.line(row) for row in table.rows(RowRole.DATA)]
    return tuple(it for it in lines if it is not None)


class _Telling:
    """What is needed again and again while lines are told."""

    def __init__(self, table: Table, groups: Groups, sets: Sets) -> None:
        self.table, self.groups, self.sets = table, groups, sets
        self.first = table.block.first
        self.of_all = product_of_all(table)
        columns = (_results(table, it) for it in table.letters(Role.RESULT))
        self.columns = [it for it in columns if it is not None]
        self.same = same_samples(table)
        self.heads = [table.letter(it) for it in (Role.BATCH, Role.DAY, Role.PRODUCT)]
        self.names = {name: table.letter(it) for it, name in NAMES.items()}
        self.remarks = table.letters(Role.REMARK)

    def line(self, row: int) -> Line | None:
        """The line of one row; None while its batch, day or product waits."""
        batch, day, product = (self.settled(it, row) for it in self.heads)
        product = self.of_all or product
        if not (batch and day and product):
            return None
        rows = tuple(self.groups.get(row, (row,)))
        names = {name: self.settled(it, row) for name, it in self.names.items() if it}
        return Line(
            rows=rows,
            batch=batch,
            day=day,
            product=product,
            remark=self.remark(rows),
            values=tuple(self.values(row, product)),
            **names,
        )

    def settled(self, letter: str, row: int) -> str:
        """What a cell says once it is settled."""
        if not letter:
            return ""
        said = self.table.said[letter][row - self.first]
        return said.value if said.fate in SETTLED else ""

    def remark(self, rows: Sequence[int]) -> str:
        """The remarks of some rows, one after the other."""
        told = (self.settled(it, row) for row in rows for it in self.remarks)
        return "; ".join(it for it in told if it)

    def values(self, row: int, product: str) -> list[Value]:
        """The values of one row, or of the set that it begins."""
        also = ""
        if row in self.same:
            also = f"row {self.same[row]} has other results of the same batch and day"
        if row not in self.groups:
            return self.of_row(row, product, also)
        return [
            self.combined(column, it, product, also)
            for column in self.columns
            for it in self.sets.get(column.letter, {}).get(row, ())
        ]

    def of_row(self, row: int, product: str, also: str) -> list[Value]:
        """The values of one row by itself."""
        place = row - self.first
        values = []
        for column in self.columns:
            said = column.said[place]
            key = (id(said), product)
            if key not in column.told:
                column.told[key] = self.told(column, said, product)
            told = column.told[key]
            if told is None:
                continue
            value, rule, is_words, lies = told
            values.append(
                Value(
                    column.measured.code,
                    value,
                    (f"{column.letter}{row}",),
                    (column.texts[place],),
                    rule if not also else _joined(rule, also),
                    is_words,
                    lies,
                )
            )
        return values

    def told(self, column: Results, said: Said, product: str) -> Told | None:
        """What is told of equal cells of one product; None where there is no value."""
        if said.fate not in SETTLED or said.value == NOT_TESTED:
            return None
        bare = _is_bare(said.value, column.measured)
        return said.value, said.rule, bare, self.lie(column, said.value, product)

    def combined(self, column: Results, it: Combined, product: str, also: str) -> Value:
        """The value of several cells."""
        return Value(
            column.measured.code,
            it.value,
            tuple(f"{column.letter}{row}" for row in it.rows),
            tuple(column.texts[row - self.first] for row in it.rows),
            _joined(it.rule, also),
            _is_bare(it.value, column.measured),
            self.lie(column, it.value, product),
        )

    def lie(self, column: Results, value: str, product: str) -> str:
        """Where a value lies beside the limits of its product."""
        limits = self.table.known.limits.get((product, column.measured.code))
        return beside(value, limits, column.measured)


def told_of(
    table: Table, measured: Measured, said: Said, product: str
) -> tuple[bool, str]:
    """Whether a settled value is words where a mark is wanted, and where it lies beside the limits of its product."""
    limits = table.known.limits.get((product, measured.code))
    return _is_bare(said.value, measured), beside(said.value, limits, measured)


def _is_bare(value: str, measured: Measured) -> bool:
    return measured.kind not in NUMBERS and is_bare(value, measured)


def _joined(*rules: str) -> str:
    return "; ".join(it for it in rules if it)


def _results(table: Table, letter: str) -> Results | None:
    measured = table.measured(letter)
    if measured is None:
        return None
    first, last = table.block.first, table.block.last
    column = table.sheet.by_letter.get(letter)
    texts = list(column.texts[first - 1 : last]) if column else []
    texts += [""] * (last - first + 1 - len(texts))
    return Results(letter, measured, table.said[letter], texts)
