"""The table of results of a certificate on a page: the rows as printed, each verdict with its mark."""

from collections.abc import Sequence
from dataclasses import dataclass

from lims.certificates.data import ProductNamed, Row
from lims.documents.rows import Cell, PrintedRow, table_of
from lims.documents.words import Words

SOFT_HYPHEN = "\u00ad"


@dataclass(frozen=True)
class ShownRow:
    """A row as printed; `word` names the mark of its verdict, and is empty where nothing is judged."""

    printed: PrintedRow
    word: str
    cells: tuple[
        tuple[str, Cell], ...
    ]  # limits and result, each with the head of its column


@dataclass(frozen=True)
class ShownGroup:
    """Rows of one evidence under its heading; none for this lot's own."""

    heading: str
    rows: tuple[ShownRow, ...]


@dataclass(frozen=True)
class ShownTable:
    groups: tuple[ShownGroup, ...]
    mixed: bool


def shown_table(rows: Sequence[Row], words: Words) -> ShownTable:
    """The table in the language of `words`."""
    verdicts = {row.line: str(row.verdict) for row in rows}
    table = table_of(rows, words)
    return ShownTable(
        tuple(
            ShownGroup(
                f"{group.lead} {group.head}".strip(),
                tuple(
                    ShownRow(row, verdicts[row.line], _labelled(row, words))
                    for row in group.rows
                ),
            )
            for group in table.groups
        ),
        table.mixed,
    )


def _labelled(row: PrintedRow, words: Words) -> tuple[tuple[str, Cell], ...]:
    """On a narrow page the rows stand alone, so each cell says what it is. A demand in words fills both limits."""
    heads = ["lower", "upper", "result"]
    if len(row.cells) < len(heads):
        heads = ["upper", "result"]
    labels = (words[head].replace(SOFT_HYPHEN, "") for head in heads)
    return tuple(zip(labels, row.cells, strict=True))


def in_fours(sha256: str) -> list[str]:
    """A fingerprint in pairs of four characters, as it is compared by eye."""
    eights = [sha256[at : at + 8] for at in range(0, len(sha256), 8)]
    return [f"{eight[:4]} {eight[4:]}" for eight in eights]


def product_words(product: ProductNamed) -> str:
    """``LX2 lithium EP grease, NLGI 2``: the code stands once, whether the name bears it or not."""
    name, code = product.name, product.code
    return name if name.startswith(code) else f"{code} {name}"
