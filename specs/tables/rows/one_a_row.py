"""Tables with one result a row: what was tested, what was found, and its unit stand in columns of their own."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from specs.tables.asking import count_of, left_out
from specs.tables.finding.unit_words import unit_of
from specs.tables.known import Measured, Role
from specs.tables.lines import NAMES, told_of
from specs.tables.numbers.single import NOT_TESTED
from specs.tables.reading import (
    LIVE,
    SETTLED,
    Table,
    read_cells,
    read_column,
    reader_of,
)
from specs.tables.rows.whose import product_of_all
from specs.tables.saying import Fate, Line, RowRole, Said, Value
from specs.tables.seen import NOTHING
from specs.tables.texts.tests_named import read_tests

LONGEST_REMARK = 300
NO_TEST = "no test"
WHY = "nothing says what was tested."
SAMPLE = (Role.BATCH, Role.DAY, Role.PRODUCT)


def is_meant(table: Table) -> bool:
    """Whether a column says what was tested, and another one what was found."""
    return bool(table.letter(Role.TESTED) and table.letter(Role.FOUND))


def read(table: Table, rows: Sequence[int]) -> None:
    """Read what was tested in each row, then the results, those of each characteristic and unit together.

    A row without a batch and a day of its own is of the sample above it.
    """
    _stand_alone(table)
    known = table.known.characteristics
    tested, found = table.letter(Role.TESTED), table.letter(Role.FOUND)
    read_column(
        table, tested, rows, lambda column, places: read_tests(column, known, places)
    )
    _ask_of_empty(table, tested, found, rows)
    said: dict[int, Said] = {}
    for (code, unit, of), some in _kinds(table, tested, rows).items():
        if not code:
            said |= {row: _not_settled(table, tested, found, row) for row in some}
            continue
        reader = reader_of(table, known[code], unit, some)
        cells = read_cells(table, found, some, reader, of=of)
        said |= dict(zip(some, cells, strict=True))
    table.put(found, rows, [said[row] for row in rows])


def _stand_alone(table: Table) -> None:
    """Rows that belong to the one above have its batch, day and product, and results of their own."""
    first = table.block.first
    for row in table.rows(RowRole.CONTINUATION):
        table.roles[row - first] = RowRole.DATA
        table.joined.pop(row, None)
        for letter in filter(None, map(table.letter, SAMPLE)):
            it = table.at(letter, row)
            if it.fate is Fate.EMPTY and it.value:
                table.said[letter][row - first] = replace(it, fate=Fate.CONVERTED)


def _kinds(
    table: Table, tested: str, rows: Sequence[int]
) -> dict[tuple[str, str, str], list[int]]:
    """The rows of each characteristic and unit, with how their questions are told apart; those that wait have no code."""
    letter = table.letter(Role.UNIT)
    found: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for row in rows:
        said = table.at(tested, row)
        code = said.value if said.fate in SETTLED else ""
        unit = table.sheet.text(letter, row).strip() if letter and code else ""
        found[code, unit].append(row)
    units: defaultdict[str, set[str]] = defaultdict(set)
    for code, unit in found:
        units[code].add(unit)
    return {
        (code, _stated(unit, table, code), _of(table, code, unit, units[code])): rows
        for (code, unit), rows in found.items()
    }


def _stated(unit: str, table: Table, code: str) -> str:
    """The unit that a cell states, as it is kept; a share in percent is that of the characteristic."""
    named = unit_of(unit) or unit
    measured = table.known.characteristics.get(code)
    is_share = named == "%" and measured is not None and measured.unit.endswith("%")
    return measured.unit if is_share and measured else named


def _of(table: Table, code: str, unit: str, units: set[str]) -> str:
    if not code:
        return ""
    name = table.known.characteristics[code].name
    alike = [it for it in table.known.characteristics.values() if it.name == name]
    words = (
        name
        if len(alike) == 1
        else f"{name}, {table.known.characteristics[code].conditions}"
    )
    return f"{words} in {unit or 'no unit'}" if len(units) > 1 else words


def _not_settled(table: Table, tested: str, found: str, row: int) -> Said:
    """A result of which nobody has said yet what it is, or that is not wanted."""
    if not table.sheet.text(found, row).strip():
        return NOTHING
    it = table.at(tested, row)
    if it.question:
        return Said(Fate.ASKS, why="what was tested is asked.", question=it.question)
    return left_out("what was tested is left out.")


def _ask_of_empty(table: Table, tested: str, found: str, rows: Sequence[int]) -> None:
    """Results beside which nothing says what was tested are asked about once."""
    first = table.block.first
    empty = [
        row
        for row in rows
        if table.at(tested, row).fate is Fate.EMPTY
        and table.sheet.text(found, row).strip()
    ]
    if not empty:
        return
    column = table.column(tested, empty)
    is_left = column.refuse(
        NO_TEST,
        range(len(empty)),
        f"Nothing in {column.name} says what was tested in {count_of(empty, 'row')}: write it, "
        "or leave the rows out.",
    )
    table.ask(column.questions)
    for row in empty:
        table.said[tested][row - first] = (
            left_out(WHY)
            if is_left
            else Said(Fate.ASKS, why=WHY, question=column.key(NO_TEST))
        )


@dataclass
class _Sample:
    """What several rows tell of one sample."""

    rows: list[int] = field(default_factory=list)
    values: list[Value] = field(default_factory=list)
    remarks: dict[str, None] = field(default_factory=dict)
    codes: set[str] = field(default_factory=set)


def lines_of(table: Table) -> tuple[Line, ...]:
    """A line for each batch, day, product and place, with the values of its rows.

    What was tested again begins a line of its own, as a row of its own does in a table with one result a column.
    """
    names = {name: table.letter(role) for role, name in NAMES.items()}
    samples: dict[tuple[str, ...], list[_Sample]] = {}
    for row in table.rows(RowRole.DATA):
        about = [_settled(table, table.letter(role), row) for role in SAMPLE]
        about[2] = about[2] or product_of_all(table)
        if not all(about):
            continue
        key = (*about, *(_settled(table, it, row) for it in names.values()))
        _add(table, samples.setdefault(key, []), row, about[2])
    return tuple(
        Line(
            rows=tuple(it.rows),
            batch=key[0],
            day=key[1],
            product=key[2],
            remark="; ".join(it.remarks)[:LONGEST_REMARK],
            values=tuple(it.values),
            **dict(zip(names, key[3:], strict=True)),
        )
        for key, several in samples.items()
        for it in several
    )


def _add(table: Table, samples: list[_Sample], row: int, product: str) -> None:
    letter = table.letter(Role.FOUND)
    measured, said = _measured(table, row), table.at(letter, row)
    sample = _of_row(samples, measured)
    sample.rows.append(row)
    for it in table.letters(Role.REMARK):
        if remark := _settled(table, it, row):
            sample.remarks[remark] = None
    if measured is None or said.fate not in SETTLED or said.value == NOT_TESTED:
        return
    sample.codes.add(measured.code)
    is_words, lies = told_of(table, measured, said, product)
    sample.values.append(
        Value(
            measured.code,
            said.value,
            (f"{letter}{row}",),
            (table.sheet.text(letter, row),),
            said.rule,
            is_words,
            lies,
        )
    )


def _of_row(samples: list[_Sample], measured: Measured | None) -> _Sample:
    """The first that has no value of the characteristic yet."""
    for sample in samples:
        if measured is None or measured.code not in sample.codes:
            break
    else:
        sample = _Sample()
        samples.append(sample)
    return sample


def _measured(table: Table, row: int) -> Measured | None:
    code = _settled(table, table.letter(Role.TESTED), row)
    return table.known.characteristics.get(code)


def _settled(table: Table, letter: str, row: int) -> str:
    """What a cell says once it is settled."""
    if not letter or table.role(row) not in LIVE:
        return ""
    said = table.at(letter, row)
    return said.value if said.fate in SETTLED else ""
