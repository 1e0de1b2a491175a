"""The list of files: narrowed as asked, each with where it stands, and the same as a sheet."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Q, QuerySet

from lims.imports import queries, rules
from lims.imports.models import Import
from lims.people.models import Person
from lims.screens.exporting import clock, on_the_clock
from lims.screens.imports import words
from lims.sheets import looking
from lims.sheets.exports import Export, Row, columns

KINDS, STATES = dict(Import.Kind.choices), dict(Import.State.choices)


@dataclass(frozen=True)
class Asked:
    """The filter: part of a name, a kind, a state; what is none of them is not asked."""

    text: str = ""
    kind: str = ""
    state: str = ""

    @classmethod
    def of(cls, given: Mapping[str, str]) -> "Asked":
        """As the address says it."""
        kind, state = given.get("kind", ""), given.get("state", "")
        return cls(
            given.get("q", "").strip(),
            kind if kind in KINDS else "",
            state if state in STATES else "",
        )

    @property
    def narrows(self) -> bool:
        return bool(self.text or self.kind or self.state)


def narrowed(asked: Asked) -> "QuerySet[Import]":
    """The files that fit."""
    rows = queries.imports()
    if asked.text:
        rows = rows.filter(Q(name__icontains=asked.text) | Q(sha256=asked.text.lower()))
    if asked.kind:
        rows = rows.filter(kind=asked.kind)
    return rows.filter(state=asked.state) if asked.state else rows


def page(asked: Asked, person: Person) -> dict[str, Any]:
    """What stands around the table."""
    counted = Import.objects.aggregate(
        total=Count("pk"),
        waiting=Count("pk", filter=Q(state=Import.State.RECEIVED)),
        taken=Count("pk", filter=Q(state=Import.State.TAKEN_IN)),
    )
    return {
        "asked": asked,
        "kinds": KINDS,
        "states": STATES,
        "total": counted["total"],
        "answer": answer(**counted),
        "may": bool(rules.kinds_for(person)),
    }


def answer(total: int, waiting: int, taken: int) -> str:
    """What waits for a person, and how many were taken in."""
    if not total:
        return "No file was brought in yet."
    verb = "waits" if waiting == 1 else "wait"
    waits = f"{words.number_of(waiting, 'file')} {verb} for somebody to go on with"
    were = "was" if taken < 2 else "were"
    done = f"{words.number_of(taken, 'file') if taken else 'none'} {were} taken in"
    return f"{waits}; {done}." if waiting else f"No file waits; {done}."


def came(row: Import) -> str:
    """Where a file of the list stands: the next step, or what came of it."""
    kept = getattr(row, "staging", None)
    return words.stands(row, looking.staged(kept) if kept else None)


def sheet(rows: Iterable[Import]) -> Export:
    """One file a row."""
    heads = columns(
        *("File", "It holds", "State", "Brought in", "By", "Taken in", "Taken in by"),
        *("Lines added", "Size", "SHA-256", "Reason"),
        brought_in=clock(),
        taken_in=clock(),
        size="bytes",
    )
    return Export("files-brought-in", heads, _rows(rows))


def _rows(rows: Iterable[Import]) -> Iterator[Row]:
    at = on_the_clock()
    for row in rows:
        yield [
            *(row.name, row.get_kind_display(), row.state),
            *(at(row.received_at), row.received_by.name, at(row.taken_at)),
            row.taken_by.name if row.taken_by else None,
            *(row.line_count, row.size, row.sha256, row.reason),
        ]
