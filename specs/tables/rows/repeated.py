"""Rows that say the same twice, and rows of one batch and day that say different things."""

from collections.abc import Mapping, Sequence

from specs.tables.alike import alike
from specs.tables.known import Role
from specs.tables.reading import SETTLED, Table
from specs.tables.saying import Fate, RowRole, Said

# What tells one row from another besides its results; what somebody remarked does not.
TELLING = (
    Role.BATCH, Role.DAY, Role.PRODUCT, Role.KETTLE, Role.PACK, Role.PLACE,
    Role.INSTRUMENT, Role.PERSON, Role.RESULT, Role.TESTED, Role.FOUND,
)  # fmt: skip
OF_ONE_SAMPLE = (
    Role.BATCH, Role.DAY, Role.PRODUCT, Role.KETTLE, Role.PACK, Role.PLACE,
)  # fmt: skip

Groups = Mapping[int, Sequence[int]]


def drop_repeated(table: Table, groups: Groups) -> None:
    """Find rows that equal an earlier one in all that tells them apart, and take nothing from them.

    Cells that wait are compared by what is proposed for them.
    """
    keys = _keys(table, TELLING)
    firsts: dict[tuple[object, ...], int] = {}
    for row in table.rows(RowRole.DATA):
        key: tuple[object, ...] = keys[row - table.block.first]
        if row in groups:
            key = tuple(keys[it - table.block.first] for it in groups[row])
        first = firsts.setdefault(key, row)
        if first != row:
            for it in groups.get(row, (row,)):
                _drop(table, it, first)


def _keys(table: Table, roles: Sequence[Role]) -> list[tuple[str, ...]]:
    """What each row says in the columns of these roles: as read, else as it stands."""
    letters = table.letters(*roles)
    if not letters:
        return [(str(place),) for place in range(len(table.roles))]
    return list(zip(*(_told(table, it) for it in letters), strict=True))


def _told(table: Table, letter: str) -> list[str]:
    first, said = table.block.first, table.said[letter]
    column = table.sheet.by_letter.get(letter)
    texts = list(column.texts[first - 1 : table.block.last]) if column else []
    texts += [""] * (len(said) - len(texts))
    told = [
        it.value or (text if it.question else "")
        for it, text in zip(said, texts, strict=True)
    ]
    is_result = table.uses[letter].role in (Role.RESULT, Role.FOUND)
    return list(map(alike, told)) if is_result else told


def _drop(table: Table, row: int, first: int) -> None:
    place = row - table.block.first
    table.roles[place] = RowRole.DUPLICATE
    table.joined[row] = first
    repeats = Said(Fate.LEFT_OUT, rule=f"repeats row {first}")
    for column in table.said.values():
        if column[place].fate in SETTLED:
            column[place] = repeats


def same_samples(table: Table) -> dict[int, int]:
    """From each row to an earlier one of the same batch, day and place that says something else."""
    keys = _keys(table, OF_ONE_SAMPLE)
    firsts: dict[tuple[str, ...], int] = {}
    found = {}
    for row in table.rows(RowRole.DATA):
        first = firsts.setdefault(keys[row - table.block.first], row)
        if first != row:
            found[row] = first
    return found
