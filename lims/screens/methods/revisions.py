"""One revision of figures as its page shows it: its figures, its signature, and how it differs from another."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.http import Http404

from lims.methods import moves, queries
from lims.methods.figure_rules import span
from lims.methods.figures import Figure, in_order
from lims.methods.models import Characteristic, FiguresRevision
from lims.people.models import Person
from lims.screens.methods import book, presenting
from lims.screens.methods.book import Chapter
from lims.screens.zone import zone
from lims.wording import dates

State = FiguresRevision.State
NEW, GONE, CHANGED = "new", "no longer stated", "changed"


@dataclass(frozen=True)
class Difference:
    """One figure that two revisions do not state alike."""

    name: str
    what: str
    kind: str
    parts: list[tuple[str, str, str]]  # what, old, new


def revision_or_404(pk: int) -> FiguresRevision:
    found = queries.revisions().filter(pk=pk).first()
    if found is None:
        raise Http404
    return found


def chapters_of(revision: FiguresRevision) -> list[Chapter]:
    """The figures of a revision, a chapter a characteristic."""
    return _chapters(revision, presenting.known())


def _chapters(
    revision: FiguresRevision, known: Mapping[str, Characteristic]
) -> list[Chapter]:
    edition, figures = revision.edition, queries.figures_of(revision)
    return book.chapters(edition, figures, edition.figure_checks.all(), known)


def revision_page(
    revision: FiguresRevision, person: Person, against: str = ""
) -> dict[str, Any]:
    """A revision whole, with what it says differently from the one before or a chosen one."""
    edition = revision.edition
    known = presenting.known()
    figures = queries.figures_of(revision)
    chapters = _chapters(revision, known)
    others = list(queries.revisions().filter(edition=edition).exclude(pk=revision.pk))
    other = _other(revision, others, against)
    told = differences(queries.figures_of(other), figures, known)
    return {
        "revision": revision,
        "version": revision.version,
        "edition": edition,
        "chapters": chapters,
        "origins": book.origins(chapters),
        "is_draft": revision.state == State.DRAFT,
        "others": others,
        "other": other,
        "compared": [f"revision {it.number}" for it in (other, revision) if it],
        "differences": told,
        "answer": _answer(revision, figures),
        "differ": _differ(told, other) if other else "",
        "may": presenting.may(person),
    }


def _other(
    revision: FiguresRevision, others: Sequence[FiguresRevision], against: str
) -> FiguresRevision | None:
    """The revision asked for by its number, else the one before this."""
    chosen = next((it for it in others if str(it.number) == against), None)
    return chosen or next((it for it in others if it.number < revision.number), None)


def _answer(revision: FiguresRevision, figures: Sequence[Figure]) -> str:
    count = f"{len(figures)} figure{'' if len(figures) == 1 else 's'}"
    if revision.state == State.DRAFT:
        return f"A draft of {count}. Nothing is asked or decided by it until it is approved."
    if revision.state == State.IN_FORCE:
        return f"{count}, in force {since(revision)}. They cannot change; open a draft."
    return (
        f"{count}, in force {since(revision)} until a later revision took their place. "
        "What was reported by them stays so."
    )


def _differ(told: Sequence[Difference], other: FiguresRevision) -> str:
    """How many figures are not as in another revision."""
    count = len(told)
    if not count:
        return f"None differs from revision {other.number}."
    return f"{count} differ{'s' if count == 1 else ''} from revision {other.number}."


def since(revision: FiguresRevision) -> str:
    """Since when a revision was in force, in words."""
    if revision.approved_at is None:
        return "as shipped"
    return f"since {dates.day(revision.approved_at, zone())}"


def approve_page(revision: FiguresRevision, person: Person) -> dict[str, Any]:
    """What is to be signed, what it changes, and why it cannot be signed now."""
    context = revision_page(revision, person)
    old = queries.figures_in_force(revision.edition)
    return context | {
        "in_force": old,
        "differences": differences(
            queries.figures_of(old), queries.figures_of(revision), presenting.known()
        ),
        "sentence": _sentence(revision, person, old),
        "why_not": moves.why_not_approve(revision),
    }


def _sentence(
    revision: FiguresRevision, person: Person, old: FiguresRevision | None
) -> str:
    count = len(revision.figures)
    replaces = f" in place of revision {old.number}" if old else ""
    return (
        f"I, {person.name}, {person.function}, reviewed and approve revision "
        f"{revision.number} of the figures of {revision.edition}, {count} "
        f"figure{'' if count == 1 else 's'}. From now on they are in force{replaces}."
    )


def differences(
    old: Iterable[Figure], new: Iterable[Figure], known: Mapping[str, Characteristic]
) -> list[Difference]:
    """Figure by figure, what the new list says differently from the old."""
    before = {it.place: it for it in old}
    after = {it.place: it for it in new}
    every = in_order((before | after).values(), list(known))
    return [
        _compared(before.get(it.place), after.get(it.place), known)
        for it in every
        if before.get(it.place) != after.get(it.place)
    ]


def _compared(
    old: Figure | None, new: Figure | None, known: Mapping[str, Characteristic]
) -> Difference:
    one = new or old
    if one is None:
        raise ValueError("One of the two is there.")
    row = known.get(one.characteristic)
    kind = CHANGED if old and new else NEW if new else GONE
    return Difference(
        row.in_full if row else one.characteristic,
        f"{one.what} {span(one)}" if one.is_precision else one.what,
        kind,
        _parts(_told(old, row), _told(new, row)),
    )


def _told(figure: Figure | None, row: Characteristic | None) -> dict[str, str]:
    if figure is None:
        return {}
    return {
        "value": book.value_of(figure, row),
        "source": figure.source,
        "standing": figure.standing,
    }


def _parts(
    old: Mapping[str, str], new: Mapping[str, str]
) -> list[tuple[str, str, str]]:
    names = dict.fromkeys((*old, *new))
    pairs = [(name, old.get(name, ""), new.get(name, "")) for name in names]
    return [it for it in pairs if it[1] != it[2]]
