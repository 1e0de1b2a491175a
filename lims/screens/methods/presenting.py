"""Methods as their list and their pages show them: editions with their figures, what rests on memory, the revisions."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.http import Http404

from lims.methods import queries
from lims.methods.figures import Figure
from lims.methods.models import (
    Characteristic,
    FigureCheck,
    FiguresRevision,
    Method,
    MethodEdition,
)
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.screens.methods import book
from lims.screens.methods.book import Chapter, Origin
from lims.wording.numbers import counts

State = FiguresRevision.State


@dataclass(frozen=True)
class EditionRow:
    """One edition of a method, as the list shows it; a method without one has a row too."""

    method: Method
    edition: MethodEdition | None
    measures: list[Characteristic] = field(default_factory=list)
    chapters: list[Chapter] = field(default_factory=list)
    checks: list[FigureCheck] = field(default_factory=list)
    revisions: list[FiguresRevision] = field(default_factory=list)

    @property
    def words(self) -> str:
        measured = " ".join(it.in_full for it in self.measures)
        said = f"{self.method} {self.method.title} {self.edition or ''} {measured}"
        return said.casefold()

    @property
    def figure_count(self) -> int:
        return sum(len(it.rows) for it in self.chapters)

    @property
    def origins(self) -> list[Origin]:
        return book.origins(self.chapters)

    @property
    def from_memory(self) -> int:
        return sum(row.rests_on_memory for it in self.chapters for row in it.rows)

    @property
    def last_check(self) -> FigureCheck | None:
        """The last check, where it still holds for a figure in force."""
        holding = [row.check for it in self.chapters for row in it.rows if row.check]
        return max(holding, key=lambda it: (it.checked_on, it.pk), default=None)

    @property
    def last_checked_on(self) -> str:
        return self.last_check.checked_on.isoformat() if self.last_check else ""

    @property
    def in_force(self) -> FiguresRevision | None:
        return self._of_state(State.IN_FORCE)

    @property
    def draft(self) -> FiguresRevision | None:
        return self._of_state(State.DRAFT)

    def _of_state(self, state: State) -> FiguresRevision | None:
        return next((it for it in self.revisions if it.state == state), None)


def may(person: Person) -> dict[str, bool]:
    """What this person may do here."""
    return {
        "keep": allowed(person, Permission.KEEP_METHODS),
        "approve": allowed(person, Permission.APPROVE_FIGURES),
    }


def method_or_404(pk: int) -> Method:
    found = queries.methods_with_editions().filter(pk=pk).first()
    if found is None:
        raise Http404
    return found


def edition_or_404(pk: int) -> MethodEdition:
    found = MethodEdition.objects.select_related("method").filter(pk=pk).first()
    if found is None:
        raise Http404
    return found


def characteristic_or_404(code: str) -> Characteristic:
    try:
        return queries.characteristic(code)
    except Characteristic.DoesNotExist:
        raise Http404 from None


def known() -> Mapping[str, Characteristic]:
    """Every characteristic by its code."""
    return {it.code: it for it in queries.characteristics()}


def edition_rows() -> list[EditionRow]:
    """Every edition of every method, and what it measures."""
    characteristics = known()
    rows: list[EditionRow] = []
    for method in queries.methods_with_editions():
        editions = list(method.editions.all())
        rows += [_row(method, it, characteristics) for it in editions]
        if not editions:
            rows.append(EditionRow(method, None))
    return rows


def _row(
    method: Method, edition: MethodEdition, known: Mapping[str, Characteristic]
) -> EditionRow:
    revisions = list(edition.figures_revisions.all())
    checks = list(edition.figure_checks.all())
    in_force = [it for it in revisions if it.state == State.IN_FORCE]
    figures = [Figure.of(told) for it in in_force for told in it.figures]
    return EditionRow(
        method,
        edition,
        [known[code] for code in edition.characteristics if code in known],
        book.chapters(edition, figures, checks, known),
        checks,
        revisions,
    )


def answer(rows: Iterable[EditionRow]) -> str:
    """How many figures are in force, and how many of them rest on memory."""
    rows = list(rows)
    if not rows:
        return "No method is kept here yet."
    count = sum(row.figure_count for row in rows)
    memory = sum(row.from_memory for row in rows)
    if not count:
        return "No figure is in force for any method yet."
    figures = f"{counts(count)} figure{'' if count == 1 else 's'} in force"
    if not memory:
        return f"{figures}; none rests on memory alone."
    rest = "rests" if memory == 1 else "rest"
    return (
        f"{figures}; {counts(memory)} {rest} on memory until somebody checks "
        f"{'it' if memory == 1 else 'them'} against the laboratory's own copy."
    )


def method_page(method: Method, person: Person) -> dict[str, Any]:
    characteristics = known()
    rows = [_row(method, it, characteristics) for it in method.editions.all()]
    return {
        "method": method,
        "editions": rows,
        "answer": _about(rows),
        "may": may(person),
    }


def _about(rows: list[EditionRow]) -> str:
    if not rows:
        return "No edition is kept yet, so no requirement can name this method."
    memory = sum(row.from_memory for row in rows)
    count = sum(row.figure_count for row in rows)
    editions = "1 edition" if len(rows) == 1 else f"{len(rows)} editions"
    if not count:
        return f"{editions}; no figure is in force."
    figures = f"{editions}; {counts(count)} figure{'' if count == 1 else 's'} in force"
    if not memory:
        return f"{figures}, none resting on memory alone."
    rest = f"{counts(memory)} of them from memory and not checked"
    return f"{figures}, {rest}: compare with the laboratory's own copy."
