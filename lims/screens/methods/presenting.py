"""Methods as their pages show them: editions with their figures, what rests on memory, what a procedure is set to."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.http import Http404

from lims.methods import queries
from lims.methods.models import Characteristic, Method, MethodEdition, Precision
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.record.refusals import ChangedSince
from lims.wording.numbers import counts
from specs import chain
from specs.methods.catalogue import PROCEDURES
from specs.methods.outcome import Procedure, setting

NOT_STATED = "not stated"
NOT_SET = "none"
FROM_MEMORY = MethodEdition.Standing.FROM_MEMORY


@dataclass(frozen=True)
class EditionRow:
    """One edition of a method, as the list shows it; a method without one has a row too."""

    method: Method
    edition: MethodEdition | None
    measures: list[Characteristic]
    figure_count: int
    from_memory: int

    @property
    def words(self) -> str:
        return f"{self.method} {self.method.title} {self.edition or ''}".casefold()


@dataclass(frozen=True)
class Setting:
    """One setting of a procedure as this characteristic uses it."""

    label: str
    value: str
    is_house: bool
    is_own: bool  # set for this characteristic, not the procedure's default

    @property
    def is_set(self) -> bool:
        return self.value != NOT_SET


def may_keep(person: Person) -> bool:
    return allowed(person, Permission.KEEP_METHODS)


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


def figure_or_404(pk: int) -> Precision:
    found = (
        Precision.objects.select_related("edition__method", "characteristic")
        .filter(pk=pk)
        .first()
    )
    if found is None:
        raise Http404
    return found


def characteristic_or_404(code: str) -> Characteristic:
    try:
        return queries.characteristic(code)
    except Characteristic.DoesNotExist:
        raise Http404 from None


def figures_in(rows: Iterable[Precision], *, unchecked: bool = False) -> int:
    """How many figures the rows hold; only those from memory that nobody checked, if so asked."""
    return sum(
        bool(row.repeatability) + bool(row.reproducibility)
        for row in rows
        if not unchecked or rests_on_memory(row)
    )


def rests_on_memory(row: Precision) -> bool:
    return row.standing == FROM_MEMORY and not row.checked_by


def edition_rows() -> list[EditionRow]:
    """Every edition of every method, and what it measures."""
    known = {it.code: it for it in queries.characteristics()}
    rows: list[EditionRow] = []
    for method in queries.methods_with_editions():
        editions = list(method.editions.all())
        rows += [_row(method, it, known) for it in editions]
        if not editions:
            rows.append(EditionRow(method, None, [], 0, 0))
    return rows


def _row(
    method: Method, edition: MethodEdition, known: dict[str, Characteristic]
) -> EditionRow:
    figures = list(edition.precisions.all())
    return EditionRow(
        method,
        edition,
        [known[code] for code in edition.characteristics if code in known],
        figures_in(figures),
        figures_in(figures, unchecked=True),
    )


def answer(rows: list[EditionRow]) -> str:
    """How well it is measured, and how much of that rests on memory."""
    if not rows:
        return "No method is kept here yet."
    count, memory = (
        sum(row.figure_count for row in rows),
        sum(row.from_memory for row in rows),
    )
    if not count:
        return "No precision is stated for any method yet."
    figures = f"{counts(count)} figure{'' if count == 1 else 's'} of precision"
    if not memory:
        return f"{figures}; none rests on memory alone."
    rest = "rests" if memory == 1 else "rest"
    return (
        f"{figures}; {counts(memory)} {rest} on memory until somebody checks "
        f"{'it' if memory == 1 else 'them'} against the laboratory's own copy."
    )


def method_page(method: Method, person: Person) -> dict[str, Any]:
    known = {it.code: it for it in queries.characteristics()}
    editions = [
        {
            "row": _row(method, it, known),
            "edition": it,
            "figures": list(it.precisions.all()),
        }
        for it in method.editions.all()
    ]
    rows = [it["row"] for it in editions]
    return {
        "method": method,
        "editions": editions,
        "answer": _about(rows),  # type: ignore[arg-type]
        "may_keep": may_keep(person),
    }


def _about(rows: list[EditionRow]) -> str:
    if not rows:
        return "No edition is kept yet, so no requirement can name this method."
    memory = sum(row.from_memory for row in rows)
    editions = "1 edition" if len(rows) == 1 else f"{len(rows)} editions"
    if not sum(row.figure_count for row in rows):
        return f"{editions}; no precision is stated."
    if not memory:
        return f"{editions}; no figure rests on memory alone."
    return (
        f"{editions}; {counts(memory)} figure{' rests' if memory == 1 else 's rest'} on memory: "
        "compare with the laboratory's own copy."
    )


def seen_of(edition: MethodEdition) -> str:
    """What stood in an edition's figures when a page was opened, as a short print of it."""
    rows = edition.precisions.order_by("pk").values_list(
        "pk", "repeatability", "reproducibility", "source", "standing", "checked_by"
    )
    told = {
        "checked": [edition.checked_by, str(edition.checked_on or "")],
        "figures": [[str(it) for it in row] for row in rows],
    }
    return hashlib.sha256(chain.canonical(told)).hexdigest()[:16]


def check_seen(edition: MethodEdition, seen: str) -> None:
    """Refuse writing over figures that changed after the page was opened."""
    if seen != seen_of(edition):
        raise ChangedSince(
            f"The figures of {edition} were changed by somebody else since you opened "
            "them. Look at them as they are now, then decide again."
        )


def characteristic_page(row: Characteristic) -> dict[str, Any]:
    """One characteristic: by which procedure, with which settings, from what."""
    procedure = PROCEDURES[row.procedure]
    known = queries.characteristics().in_bulk(
        list(row.derived_from.values()), field_name="code"
    )
    return {
        "characteristic": row,
        "settings": _settings(row, procedure),
        "scale": procedure.scale,
        "derived": [
            (role, known.get(code), code) for role, code in row.derived_from.items()
        ],
        "caution": row.caution or procedure.caution,
        "editions": queries.editions_for(row),
        "answer": _by_which(row, procedure),
    }


def _settings(row: Characteristic, procedure: Procedure) -> list[Setting]:
    return [
        Setting(
            it.label,
            setting(row.parameters, it) or NOT_SET,
            it.house,
            bool(row.parameters.get(it.key)),
        )
        for it in procedure.parameters
    ]


def _by_which(row: Characteristic, procedure: Procedure) -> str:
    if row.is_derived:
        return f"Worked out by the procedure “{procedure.name}” from other results of the same sample."
    if row.kind == Characteristic.Kind.NUMBER:
        return (
            f"A number, found by the procedure “{procedure.name}” and reported to {row.step} {row.unit}".strip()
            + "."
        )
    what = "A mark of a scale" if row.kind == Characteristic.Kind.RATING else "Words"
    return f"{what}, found by the procedure “{procedure.name}”."
