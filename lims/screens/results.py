"""The table of results of a certificate on a page: the rows as printed, each verdict with its mark."""

from collections.abc import Iterable
from dataclasses import dataclass

from lims.certificates.data import Row
from lims.documents.rows import PrintedRow, table_of
from lims.documents.words import Words


@dataclass(frozen=True)
class ShownRow:
    """A row as printed; `word` names the mark of its verdict, and is empty where nothing is judged."""

    printed: PrintedRow
    word: str


@dataclass(frozen=True)
class ShownGroup:
    """Rows of one evidence under its heading; none for this lot's own."""

    heading: str
    rows: tuple[ShownRow, ...]


@dataclass(frozen=True)
class ShownTable:
    groups: tuple[ShownGroup, ...]
    mixed: bool


def shown_table(rows: Iterable[Row], words: Words) -> ShownTable:
    """The table in the language of `words`."""
    verdicts = {row.line: str(row.verdict) for row in (rows := tuple(rows))}
    table = table_of(rows, words)
    return ShownTable(
        tuple(
            ShownGroup(
                f"{group.lead} {group.head}".strip(),
                tuple(ShownRow(row, verdicts[row.line]) for row in group.rows),
            )
            for group in table.groups
        ),
        table.mixed,
    )
