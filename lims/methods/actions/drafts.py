"""Drafts of figures: opening one, setting and removing its figures, discarding it."""

from collections.abc import Iterable

from django.db.models import Max

from lims.methods import figure_rules, moves, queries
from lims.methods.figures import Figure, in_order
from lims.methods.models import FiguresRevision, MethodEdition
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import ChangedSince


def open_figures_draft(
    *, edition: MethodEdition, note: str = "", by: Person
) -> FiguresRevision:
    """Open the next revision of an edition's figures as a draft, with the figures in force."""
    check(by, Permission.KEEP_METHODS)
    draft = drawn_up(edition=edition, note=note)
    with entry(by=by, verb="figures_draft_opened") as it:
        begin(draft)
        it.about = draft
    return draft


def drawn_up(*, edition: MethodEdition, note: str = "") -> FiguresRevision:
    """A draft that may be opened, checked and not saved yet. Raises WrongMove and BadInput."""
    moves.check_may_open_draft(edition)
    draft = FiguresRevision(edition=edition, number=0, note=note.strip())
    check_filled(draft)
    return draft


def begin(draft: FiguresRevision, figures: Iterable[Figure] | None = None) -> None:
    """Save a draft inside the open entry: with these figures, or else with those in force."""
    moves.check_may_open_draft(draft.edition)
    draft.number = _next_number(draft.edition)
    if figures is None:
        old = queries.figures_in_force(draft.edition)
        draft.figures = list(old.figures) if old else []
    else:
        draft.figures = _ordered(draft.edition, figures)
    draft.save()


def set_figure(
    *,
    revision: FiguresRevision,
    figure: Figure,
    instead_of: Figure | None = None,
    version: int | None = None,
    by: Person,
) -> FiguresRevision:
    """Set a figure of a draft, or put it in the place of another one.

    Without `instead_of` it takes the place of what says the same at the same levels.
    """
    check(by, Permission.KEEP_METHODS)
    moves.check_is_draft(revision)
    standing = queries.figures_of(revision)
    figure = figure_rules.settled(figure)
    old = instead_of or _at_the_place_of(figure, standing)
    if old is not None and old not in standing:
        raise _no_longer(revision, old)
    kept = [it for it in standing if it != old]
    figure_rules.check_figure(figure, revision.edition, moves.known(), kept)
    note = f"{_named(figure)}: {figure.value}" + (f", was {old.value}" if old else "")
    with entry(by=by, verb="figure_set", about=revision, note=note):
        _put(revision, [*kept, figure], version)
    return revision


def remove_figure(
    *,
    revision: FiguresRevision,
    figure: Figure,
    version: int | None = None,
    by: Person,
) -> FiguresRevision:
    """Take a figure out of a draft: it is then not stated. The record keeps what it said."""
    check(by, Permission.KEEP_METHODS)
    moves.check_is_draft(revision)
    standing = queries.figures_of(revision)
    if figure not in standing:
        raise _no_longer(revision, figure)
    note = f"{_named(figure)}: was {figure.value}"
    with entry(by=by, verb="figure_removed", about=revision, note=note):
        _put(revision, [it for it in standing if it != figure], version)
    return revision


def discard_draft(
    *, revision: FiguresRevision, version: int | None = None, by: Person
) -> MethodEdition:
    """Discard a draft of figures. The record keeps it whole; its number is free again."""
    check(by, Permission.KEEP_METHODS)
    moves.check_is_draft(revision)
    with entry(by=by, verb="figures_draft_discarded", about=revision):
        moves.check_stands(revision, revision.version if version is None else version)
        revision.delete()
    return revision.edition


def _at_the_place_of(figure: Figure, standing: Iterable[Figure]) -> Figure | None:
    return next((it for it in standing if it.place == figure.place), None)


def _put(
    revision: FiguresRevision, figures: Iterable[Figure], version: int | None
) -> None:
    """A draft moves on with each change, so that a signature binds what was seen."""
    revision.figures = _ordered(revision.edition, figures)
    revision.save_if_version(revision.version if version is None else version)


def _ordered(edition: MethodEdition, figures: Iterable[Figure]) -> list[dict[str, str]]:
    return [it.told for it in in_order(figures, edition.characteristics)]


def _next_number(edition: MethodEdition) -> int:
    last = edition.figures_revisions.aggregate(last=Max("number"))["last"]
    return (last or 0) + 1


def _named(figure: Figure) -> str:
    return f"{figure.characteristic}, {figure.what} {figure_rules.span(figure)}"


def _no_longer(revision: FiguresRevision, figure: Figure) -> ChangedSince:
    return ChangedSince(
        f"The {figure.what} {figure_rules.span(figure)} is no longer {figure.value} in "
        f"the draft of revision {revision.number}: look at it as it is now."
    )
