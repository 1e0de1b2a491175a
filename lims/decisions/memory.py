"""Which figures from memory decided something about a line: told until a named person compared them with the laboratory's own copy. At most three queries, however many lines."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from lims.bench.models import ReportedValue
from lims.decisions.verdicts import Line
from lims.methods.figures import Figure, What
from lims.methods.queries import FROM_MEMORY, asked_by_all, checked_figures
from lims.products.models import Requirement

IN_VALUE = "used in the reported value"
IN_SOURCE = "used in a value that this one is computed from"
IN_RULE = "used by the decision rule"
NOBODY = "no named person has compared {} with the laboratory's own copy yet"


class Used(NamedTuple):
    """A figure that decided something, and what."""

    edition: str
    edition_id: int
    figure: Figure
    decided: str


def from_memory(lines: Iterable[Line]) -> dict[int, tuple[str, ...]]:
    """By requirement, a sentence for each edition whose unchecked figures decided something."""
    lines = list(lines)
    used = _used(lines)
    unchecked = _unchecked(it for several in used.values() for it in several)
    return {
        line.requirement.pk: (
            *_sentences(it for it in used[line.requirement.pk] if it in unchecked),
            *_of_requirement(line.requirement),
        )
        for line in lines
    }


def _used(lines: list[Line]) -> dict[int, list[Used]]:
    found: dict[int, list[Used]] = defaultdict(list)
    computed = _of_sources(lines)
    for line in lines:
        place = found[line.requirement.pk]
        if line.result is not None:
            place += _told(line.result.figures, IN_VALUE)
        if line.result is not None and line.requirement.characteristic.is_derived:
            for source in line.result.sources:
                place += _told(computed.get(source, ()), IN_SOURCE)
    for line, several in _reproducibilities(lines):
        found[line.requirement.pk] += several
    return found


def _told(figures: Iterable[Mapping[str, Any]], decided: str) -> list[Used]:
    return [
        Used(it["edition"], it["edition_id"], Figure.within(it), decided)
        for it in figures
    ]


def _of_sources(lines: list[Line]) -> dict[int, list[Mapping[str, Any]]]:
    """The figures of the values that derived ones are computed from."""
    named = {
        source
        for line in lines
        if line.result is not None and line.requirement.characteristic.is_derived
        for source in line.result.sources
    }
    if not named:
        return {}
    rows = ReportedValue.objects.filter(pk__in=named).order_by()
    return dict(rows.values_list("pk", "figures"))


def _reproducibilities(lines: list[Line]) -> list[tuple[Line, list[Used]]]:
    """The R that a rule rests on, as the figures in force of the line's edition state it."""
    resting = [line for line in lines if _rests_on_method(line.requirement)]
    if not resting:
        return []
    asked = asked_by_all(
        (it.requirement.edition, it.requirement.characteristic) for it in resting
    )
    return [
        (line, _stated(line.requirement, asked[_place(line.requirement)].figures))
        for line in resting
    ]


def _rests_on_method(requirement: Requirement) -> bool:
    return bool(
        requirement.basis == Requirement.Basis.METHOD
        and requirement.uncertainty
        and requirement.edition_id
    )


def _place(requirement: Requirement) -> tuple[int | None, int]:
    return requirement.edition_id, requirement.characteristic_id


def _stated(requirement: Requirement, figures: Iterable[Figure]) -> list[Used]:
    """The figure that says this R; where an expression gave it, all that may have. An R that no figure states has no source: it stands as from memory."""
    several = [it for it in figures if it.what == What.REPRODUCIBILITY]
    same = [it for it in several if it.value == requirement.uncertainty]
    edition, pk = str(requirement.edition), requirement.edition_id or 0
    return [
        Used(edition, pk, it, IN_RULE)
        for it in same or several or [_without_source(requirement)]
    ]


def _without_source(requirement: Requirement) -> Figure:
    return Figure(
        characteristic=requirement.characteristic.code,
        what=What.REPRODUCIBILITY,
        value=requirement.uncertainty,
        source="",
        standing=FROM_MEMORY,
    )


def _unchecked(used: Iterable[Used]) -> set[Used]:
    """Those from memory that nobody compared, in one query."""
    recalled = {it for it in used if it.figure.standing == FROM_MEMORY}
    checked = checked_figures({it.edition_id for it in recalled})
    return {it for it in recalled if it.figure not in checked.get(it.edition_id, ())}


def _sentences(used: Iterable[Used]) -> list[str]:
    by_edition: dict[tuple[str, str], list[str]] = defaultdict(list)
    for it in used:
        figures = by_edition[it.edition, it.decided]
        words = f"{it.figure.what} {it.figure.value}"
        if words not in figures:
            figures.append(words)
    return [
        f"{decided}: {', '.join(figures)} ({edition}); "
        f"{NOBODY.format('it' if len(figures) == 1 else 'them')}."
        for (edition, decided), figures in by_edition.items()
    ]


def _of_requirement(requirement: Requirement) -> list[str]:
    """Limits that were quoted from memory and that nobody checked."""
    is_recalled = requirement.origin_standing == FROM_MEMORY
    if not is_recalled or requirement.origin_checked_by:
        return []
    return [f"the limits: {requirement.origin}; {NOBODY.format('them')}."]
