"""Files that hold no results: for each kind what its table asks, what the laboratory's rules hold against a row, and how the rows are written."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from lims.imports.kinds import (
    customers,
    figures,
    instruments,
    logs,
    samples,
    specifications,
)
from lims.imports.kinds.keeping import offered
from lims.imports.models import Import
from lims.people.models import Person
from specs.tables.checked import Checked
from specs.tables.forms.list_of_forms import FORMS
from specs.tables.forms.proposing import proposed_for
from specs.tables.layout import Block
from specs.tables.saying import Answers
from specs.tables.sheet import Sheet

Mapped = Mapping[str, Mapping[str, Any]]  # letter -> role, and a unit where one is told
Kind = Import.Kind


@dataclass(frozen=True)
class Handling:
    """How one kind of table is checked and written."""

    check: Callable[[Sheet, Block, Mapped, Answers], Checked]
    write: Callable[[Import, Checked, Person], dict[str, int]]


KINDS: Mapping[str, Handling] = {
    Kind.SPECIFICATIONS: Handling(specifications.check, specifications.write),
    Kind.CUSTOMERS: Handling(customers.check, customers.write),
    Kind.FIGURES: Handling(figures.check, figures.write),
    Kind.INSTRUMENTS: Handling(instruments.check, instruments.write),
    Kind.SAMPLES: Handling(samples.check, samples.write),
    Kind.LOG: Handling(logs.check, logs.write),
}


def proposed(kind: str, block: Block) -> dict[str, dict[str, str]]:
    """What each column of a table is taken for, by the words of its head."""
    found = proposed_for(block, FORMS[kind])
    return {letter: {"role": key} for letter, key in found.items()}


def check(
    kind: str, sheet: Sheet, block: Block, mapping: Mapped, answers: Answers
) -> Checked:
    """What becomes of each cell of a table, and what is asked, by the forms and by what is kept here today."""
    return KINDS[kind].check(sheet, block, mapping, answers)


def write(kind: str, import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Write the rows of a table inside the open entry; how many of what were added.

    Whatever refuses a row refuses the file: the refusal names the row.
    """
    return KINDS[kind].write(import_of, table, by)


__all__ = ["KINDS", "check", "offered", "proposed", "write"]
