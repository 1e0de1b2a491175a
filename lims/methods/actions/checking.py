"""Saying who compared figures with the laboratory's own copy."""

import datetime as dt
from collections.abc import Iterable

from lims.methods import queries, rules
from lims.methods.figures import Figure
from lims.methods.models import FigureCheck, MethodEdition
from lims.people.days import today
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput, ChangedSince, WrongMove


def check_figures(
    *,
    edition: MethodEdition,
    checked_by: str,
    on: dt.date,
    figures: Iterable[Figure] | None = None,
    by: Person,
) -> FigureCheck:
    """Record that somebody compared figures in force, all or the chosen, with the laboratory's own copy.

    The check holds for exactly these figures, in whatever revision they stand.
    """
    check(by, Permission.KEEP_METHODS)
    chosen = list(_standing(edition) if figures is None else figures)
    _check_chosen(edition, chosen)
    rules.check_checking(checked_by, on, today())
    row = FigureCheck(
        edition=edition,
        figures=[it.told for it in chosen],
        checked_by=checked_by.strip(),
        checked_on=on,
    )
    check_filled(row)
    _check_is_new(row, chosen)
    with entry(by=by, verb="figures_checked", about=edition):
        _check_chosen(edition, chosen)
        _check_is_new(row, chosen)
        row.save()
    return row


def _standing(edition: MethodEdition) -> tuple[Figure, ...]:
    return queries.figures_of(queries.figures_in_force(edition))


def _check_chosen(edition: MethodEdition, chosen: list[Figure]) -> None:
    standing = _standing(edition)
    if not standing:
        raise WrongMove(
            f"No figure of {edition} is in force, so there is none to check: enter and "
            "approve figures first."
        )
    if not chosen:
        raise BadInput("Choose the figures that were compared.", field="figures")
    if set(chosen) - set(standing):
        raise ChangedSince(
            f"The figures of {edition} were changed by somebody else since you opened "
            "them. Look at them as they are now, then decide again."
        )


def _check_is_new(row: FigureCheck, chosen: Iterable[Figure]) -> None:
    """Refuse the same check by the same person on the same day once more."""
    told: set[Figure] = set()
    for other in row.edition.figure_checks.filter(
        checked_by=row.checked_by, checked_on=row.checked_on
    ):
        told |= {Figure.of(it) for it in other.figures}
    if told.issuperset(chosen):
        raise WrongMove(f"This check of {row.edition} stands in the record already.")
