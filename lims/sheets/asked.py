"""The cells that questions of a table name: as they stand, what is said of each, what is proposed."""

from collections.abc import Sequence
from dataclasses import dataclass

from specs.tables.checked import Checked
from specs.tables.saying import Fate, Said
from specs.tables.sheet import Sheet


@dataclass(frozen=True)
class AskedCell:
    """One of them."""

    raw: str = ""
    says: str = ""
    proposed: str = ""


def asked_cells(sheet: Sheet, table: Checked) -> dict[str, Sequence[str]]:
    """The cells by address, as they are kept; of a head nothing is said."""
    questions = (*table.questions, *table.answered)
    found: dict[str, Sequence[str]] = {}
    for address in {it for question in questions for it in question.cells}:
        letter = address.rstrip("0123456789")
        row = int(address[len(letter) :])
        said = _said(table, letter, row)
        proposed = said.value if said.question else ""
        found[address] = (sheet.text(letter, row), said.why or said.rule, proposed)
    return found


def _said(table: Checked, letter: str, row: int) -> Said:
    if table.block.first <= row <= table.block.last:
        return table.at(letter, row)
    return Said(Fate.LEFT_OUT)
