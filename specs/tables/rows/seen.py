"""What stands in the rows of a table, column by column, as far as it tells what the rows are."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from specs.tables.cells import DITTO, tops
from specs.tables.known import Role, Uses
from specs.tables.layout import Block
from specs.tables.rows.words import summary_word
from specs.tables.saying import RowRole
from specs.tables.sheet import EMPTY, FORMULA, TEXT, Sheet
from specs.tables.texts.batches import plain, shape

NOT_WANTED = (Role.LEFT_OUT,)
Texts = Sequence[str]


@dataclass(frozen=True)
class Seen:
    """The rows of a table; places count from 0 at its first row."""

    count: int
    batches: Texts
    days: Texts
    products: Texts
    columns: Mapping[str, tuple[Texts, str]]  # every column: texts and kinds
    used: Sequence[str]  # letters of the columns that are wanted
    batch_letter: str
    shapes: frozenset[
        str
    ]  # how the batch numbers of the table are built, if more than one is
    repeats: Mapping[int, RowRole]  # rows that repeat the head or the units
    summaries: frozenset[int]  # rows with a word of a summary or of limits
    spanned: Mapping[int, int]  # rows in a batch cell shown as one: its top
    dittos: frozenset[int]  # rows with a ditto mark for the batch

    def has_summary_key(self, place: int) -> bool:
        """Whether a word of a summary stands for batch and day."""
        words = [it for it in (self.batches[place], self.days[place]) if it]
        return all(summary_word(it) for it in words)

    def has_key(self, place: int) -> bool:
        """Whether the row has a batch or a day."""
        return bool(self.batches[place] or self.days[place])

    def has_other_day(self, place: int) -> bool:
        """Whether the row has a day that the row above it, of the same batch, has not."""
        day = self.days[place]
        above = self.spanned.get(place, place - 1)
        return bool(day) and day not in DITTO and day != self.days[max(above, 0)]

    def has_other_product(self, place: int, owner: int) -> bool:
        """Whether the row names another product than its owner."""
        product = self.products[place]
        return (
            bool(product) and product not in DITTO and product != self.products[owner]
        )

    def has_any(self, place: int) -> bool:
        """Whether anything stands in the row."""
        return any(texts[place] for texts, _ in self.columns.values())

    def wanted(self, place: int) -> str:
        """The kinds of the filled cells in columns that are wanted."""
        return "".join(
            self.columns[letter][1][place]
            for letter in self.used
            if self.columns[letter][0][place]
        )

    def is_title(self, place: int) -> bool:
        """Whether words stand alone in the row, and are built like no batch number of the table."""
        texts, kinds = self.columns.get(self.batch_letter, ((), ""))
        if not texts or self.days[place] or not texts[place] or kinds[place] != TEXT:
            return False
        text = plain(texts[place])
        if " " not in text and any("0" <= mark <= "9" for mark in text):
            return False
        others = (
            it
            for letter, (it, _) in self.columns.items()
            if letter != self.batch_letter
        )
        return shape(text) not in self.shapes and not any(it[place] for it in others)


def seen(block: Block, sheet: Sheet, uses: Uses, instead: Mapping[str, str]) -> Seen:
    """What stands in the rows of a block, with what was written instead. Raises nothing."""
    count = max(block.last - block.first + 1, 0)
    columns = {it: _column(sheet, block, it, count, instead) for it in block.letters}
    by_role = {use.role: letter for letter, use in reversed(list(uses.items()))}
    batch = by_role.get(Role.BATCH, "")
    nothing = ([""] * count, EMPTY * count)
    batches = columns.get(batch, nothing)[0]
    return Seen(
        count=count,
        batches=batches,
        days=columns.get(by_role.get(Role.DAY, ""), nothing)[0],
        products=columns.get(by_role.get(Role.PRODUCT, ""), nothing)[0],
        columns=columns,
        used=[
            it for it in block.letters if it in uses and uses[it].role not in NOT_WANTED
        ],
        batch_letter=batch,
        shapes=_usual_shapes(batches),
        repeats=_repeats(block, sheet, columns),
        summaries=_places(columns, lambda text: bool(summary_word(text))),
        spanned=_spanned(block, sheet, batch, batches),
        dittos=_places({batch: (batches, "")}, DITTO.__contains__),
    )


def _column(
    sheet: Sheet, block: Block, letter: str, count: int, instead: Mapping[str, str]
) -> tuple[Texts, str]:
    """A column's texts and kinds in the rows of the block; blanks alone are nothing."""
    column = sheet.by_letter.get(letter)
    start = block.first - 1
    texts = list(column.texts[start : start + count]) if column else []
    kinds = column.kinds[start : start + count] if column else ""
    texts = [it if it and not it.isspace() else "" for it in texts]
    texts += [""] * (count - len(texts))
    if (
        FORMULA in kinds
    ):  # one that was never worked out has no text, and is no empty cell
        texts = [
            text or ("=" if kind == FORMULA else "")
            for text, kind in zip(texts, kinds.ljust(count), strict=True)
        ]
    for address, text in instead.items():
        row = address.removeprefix(letter)
        if row.isdecimal() and block.first <= int(row) <= block.last and text.strip():
            texts[int(row) - block.first] = text.strip()
    return texts, kinds.ljust(count, EMPTY)


def _places(
    columns: Mapping[str, tuple[Texts, str]], is_meant: Callable[[str], bool]
) -> frozenset[int]:
    """The rows with a text that is meant, in any of the columns; each distinct text is looked at once."""
    found: set[int] = set()
    for texts, _ in columns.values():
        hits = {text for text in set(texts) if is_meant(text)}
        if hits:
            found.update(place for place, text in enumerate(texts) if text in hits)
    return frozenset(found)


def _usual_shapes(batches: Texts) -> frozenset[str]:
    counts: dict[str, int] = {}
    for text in set(batches):
        if any("0" <= mark <= "9" for mark in text):
            built = shape(plain(text))
            counts[built] = counts.get(built, 0) + 1
    return frozenset(built for built, count in counts.items() if count > 1)


def _repeats(
    block: Block, sheet: Sheet, columns: Mapping[str, tuple[Texts, str]]
) -> dict[int, RowRole]:
    """Rows whose cells are those of a head, or of the units, again: two at least, and half of them."""
    found: dict[int, RowRole] = {}
    rows = [(row, RowRole.HEAD) for row in block.heads]
    if block.units_row:
        rows.append((block.units_row, RowRole.UNITS))
    for row, role in rows:
        model = {it: text for it in block.letters if (text := sheet.text(it, row))}
        hits: dict[int, int] = {}
        for letter, text in model.items():
            for place in _where(columns[letter][0], text):
                hits[place] = hits.get(place, 0) + 1
        least = max(2, (len(model) + 1) // 2)
        found.update({place: role for place, many in hits.items() if many >= least})
    return found


def _where(texts: Texts, wanted: str) -> list[int]:
    """The places of a text; most columns have it nowhere."""
    if wanted not in texts:
        return []
    return [place for place, text in enumerate(texts) if text == wanted]


def _spanned(block: Block, sheet: Sheet, batch: str, batches: Texts) -> dict[int, int]:
    """From each row in a batch cell that the file shows as one to the place of its top row."""
    first, last = block.first, block.last
    return {
        row - first: top - first
        for row, top in tops(sheet, batch).items()
        if first <= top < row <= last
        and not batches[row - first]
        and batches[top - first]
    }
