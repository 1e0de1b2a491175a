"""Layouts that came before: what their columns were taken for, proposed when they come again."""

from collections.abc import Sequence
from typing import Any

from lims.imports.models import Import, Layout
from lims.people.models import Person
from lims.record.clock import now
from specs.tables.asking import OF
from specs.tables.checked import Checked
from specs.tables.layout import Block
from specs.tables.texts.tests_named import UNKNOWN as UNKNOWN_TEST
from specs.tables.texts.unknown_products import AS, UNKNOWN

HOLD_AGAIN = (
    *("unit", "time unit", "date order", "serial epoch", "millimetres"),
    *("comparing", "rule", "scope"),
)


def known(fingerprint: str, kind: str) -> Layout | None:
    """What is remembered of a layout, if it came before."""
    return Layout.objects.filter(fingerprint=fingerprint, kind=kind).first()


def remember(import_of: Import, tables: Sequence[Checked], *, by: Person) -> None:
    """Keep what the columns of each table were taken for, inside the open entry."""
    for table in tables:
        uses = import_of.mapping.get(table.block.key)
        if not uses:
            continue
        row = known(table.block.fingerprint, import_of.kind) or Layout(
            fingerprint=table.block.fingerprint, kind=import_of.kind
        )
        choices = _choices_that_hold(import_of, table.block)
        if row.pk and row.uses == uses and row.choices == choices:
            continue
        row.uses, row.choices = uses, choices
        row.used_at, row.used_by = now(), by
        row.save()


def _choices_that_hold(import_of: Import, block: Block) -> dict[str, Any]:
    """The answers that speak of a column as such, and not of cells of this one file."""
    answers = import_of.answers.get(block.key, {}).get("choices", {})
    return {
        key: choice
        for key, choice in answers.items()
        if _holds_again(key.partition("/")[2], choice)
    }


def _holds_again(matter: str, choice: str) -> bool:
    """Whether an answer is meant for the next file too; what was left out is asked about anew."""
    is_named = matter.startswith((UNKNOWN, UNKNOWN_TEST)) and choice.startswith(AS)
    return is_named or matter.partition(OF)[0] in HOLD_AGAIN
