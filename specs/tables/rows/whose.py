"""Of which batch, day and product each row is; rows that lack one are held, and it is asked what becomes of them."""

from collections.abc import Iterable, Sequence

from specs.tables.asking import CELL, COLUMN, LEAVE, LEAVE_THEM, is_answered
from specs.tables.cells import Cells, Found, cells_of
from specs.tables.days.reading import read_days
from specs.tables.known import Role
from specs.tables.reading import LIVE, SETTLED, Table, read_column
from specs.tables.saying import Choice, Fate, Question, RowRole, Said
from specs.tables.texts.batches import read_batches
from specs.tables.texts.naming import read_products
from specs.tables.texts.unknown_products import in_words, spoken_for

NO_COLUMN, PRODUCT_OF_ALL = "no column", "product of all"
WORDS = {Role.BATCH: "batch", Role.DAY: "date", Role.PRODUCT: "product"}
ORDER = (Role.BATCH, Role.DAY, Role.PRODUCT)
LEFT = "left out as answered"
MOST_OFFERED = 200


def read_heads(table: Table) -> list[int]:
    """Read batch, day and product of every row of data; those rows."""
    rows = table.rows(*LIVE)
    _read_batches(table, rows)
    _read_days(table, rows)
    _read_products(table, rows)
    _fill_down(table)
    for role in ORDER:
        _hold_what_lacks(table, role)
    _hold_what_belongs(table)
    for row in table.held:
        table.roles[row - table.block.first] = RowRole.HELD
    return rows


def _hold_what_belongs(table: Table) -> None:
    """Hold the rows that belong to one that is held, and those that belong to none."""
    for row in table.rows(RowRole.CONTINUATION):
        head = table.joined.get(row)
        if head is None:
            table.held[row] = "has no batch, and stands below none"
        elif head in table.out:
            table.held[row] = LEFT
            table.out.add(row)
        elif head in table.held:
            table.held[row] = f"belongs to row {head}, which {table.held[head]}"


def _read_batches(table: Table, rows: Sequence[int]) -> None:
    letter = table.letter(Role.BATCH)
    if letter:
        cells = cells_of(table.sheet, letter, rows)
        _put(table, cells, read_batches(cells, answers=table.answers))


def _read_days(table: Table, rows: Sequence[int]) -> None:
    letter = table.letter(Role.DAY)
    if letter:
        cells = cells_of(table.sheet, letter, rows)
        found = read_days(
            cells,
            today=table.known.today,
            is_1904=table.sheet.is_1904,
            answers=table.answers,
        )
        _put(table, cells, found)


def _read_products(table: Table, rows: Sequence[int]) -> None:
    letter = table.letter(Role.PRODUCT)
    if letter:
        names = table.known.names
        products = {code: names.get(code, "") for code in table.known.products}
        read_column(
            table,
            letter,
            rows,
            lambda column, places: read_products(column, products, places),
        )


def _put(table: Table, cells: Cells, found: Found) -> None:
    table.put(cells.letter, cells.rows, found.said)
    table.waiting.extend(found.questions)
    table.answered.extend(found.answered)


def _fill_down(table: Table) -> None:
    """Empty cells of rows that belong to the row above take its batch, day and product."""
    letters = [table.letter(role) for role in ORDER if table.letter(role)]
    for row, head in table.joined.items():
        for letter in letters:
            above = table.at(letter, head)
            if table.at(letter, row).fate is Fate.EMPTY and above.fate in SETTLED:
                rule = f"as in row {head}"
                filled = Said(Fate.EMPTY, above.value, rule=rule)
                table.said[letter][row - table.block.first] = filled


def _hold_what_lacks(table: Table, role: Role) -> None:
    """Hold the rows whose batch, day or product is empty, refused or left out."""
    letter = table.letter(role)
    rows = [row for row in table.rows(RowRole.DATA) if row not in table.held]
    if not letter:
        _without_column(table, role, rows)
        return
    word, first, said = WORDS[role], table.block.first, table.said[letter]
    empty = []
    for row in rows:
        fate = said[row - first].fate
        if fate is Fate.EMPTY:
            empty.append(row)
        elif fate is Fate.REFUSED or (fate is Fate.ASKS and role is Role.PRODUCT):
            table.held[row] = f"has no {word} that can be read"
        elif fate is Fate.LEFT_OUT:
            table.held[row] = LEFT
            table.out.add(row)
    if empty:
        _ask_of_empty(table, letter, word, empty)


def _ask_of_empty(table: Table, letter: str, word: str, rows: Sequence[int]) -> None:
    column = table.column(letter, rows)
    n = len(rows)
    answer = column.ask(
        f"no {word}",
        range(n),
        f"{n} row{'' if n == 1 else 's'} of {column.name} "
        f"{'has' if n == 1 else 'have'} no {word}: write it, or leave the "
        f"row{'' if n == 1 else 's'} out.",
        [Choice(LEAVE, "Leave these rows out")],
        level=CELL,
        is_refusal=True,
        takes_text=True,
    )
    table.ask(column.questions)
    _hold(table, rows, f"has no {word}", is_left=answer == LEAVE)
    if answer != LEAVE:
        for row in rows:
            table.said[letter][row - table.block.first] = Said(
                Fate.ASKS,
                why=f"no {word}: write it, or leave the row out.",
                question=column.key(f"no {word}"),
            )


def _hold(table: Table, rows: Iterable[int], why: str, *, is_left: bool) -> None:
    for row in rows:
        table.held[row] = LEFT if is_left else why
        if is_left:
            table.out.add(row)


def _without_column(table: Table, role: Role, rows: Sequence[int]) -> None:
    """No column says it: one product may be that of all rows; without batch or day nothing is taken."""
    if not rows:
        return
    question = _of_all(table, rows) if role is Role.PRODUCT else _no_column(role, rows)
    table.ask([question])
    if role is Role.PRODUCT and product_of_all(table):
        return
    is_left = is_answered(question, table.answers.choices)
    _hold(table, rows, f"has no {WORDS[role]}", is_left=is_left)


def _no_column(role: Role, rows: Sequence[int]) -> Question:
    word = WORDS[role]
    return Question(
        key=f"/{NO_COLUMN} of {word}",
        column="",
        matter=f"{NO_COLUMN} of {word}",
        level=COLUMN,
        sentence=f"No column is taken for the {word}: say above which one it is, or leave "
        "the table out.",
        choices=(Choice(LEAVE, "Leave the whole table out"),),
        cells=(),
        count=len(rows),
        is_refusal=True,
    )


def _of_all(table: Table, rows: Sequence[int]) -> Question:
    """Which product a table without a column of products is about."""
    codes = sorted(table.known.products)[:MOST_OFFERED]
    names = table.known.names
    return Question(
        key=f"/{PRODUCT_OF_ALL}",
        column="",
        matter=PRODUCT_OF_ALL,
        level=COLUMN,
        sentence="No column is taken for the product. Of which product are these results?",
        choices=(
            *(Choice(it, in_words(it, names.get(it, ""))) for it in codes),
            LEAVE_THEM,
        ),
        cells=(),
        count=len(rows),
        proposed=_named(table, codes),
    )


def product_of_all(table: Table) -> str:
    """The product that was said to be that of all rows."""
    if table.letter(Role.PRODUCT):
        return ""
    taken = table.answers.choices.get(f"/{PRODUCT_OF_ALL}", "")
    return taken if taken in table.known.products else ""


def _named(table: Table, codes: Sequence[str]) -> str:
    """The one product of which the sheet's name or a title of the table speaks; empty where none or several are."""
    titles = (" ".join(table.sheet.row(row)) for row in table.block.titles)
    texts = (table.sheet.name, *titles)
    words = " ".join(texts).casefold()
    marks = (it if it.isalnum() or it == "-" else " " for it in words)
    split = "".join(marks).split()
    named = {it for it in codes if it.casefold() in split}
    if not named:
        products = {it: table.known.names.get(it, "") for it in codes}
        named = {it for text in texts if (it := spoken_for(text, products))}
    return named.pop() if len(named) == 1 else ""
