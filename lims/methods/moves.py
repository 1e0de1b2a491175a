"""What may be done to a revision of figures in its present state; each refusal says what to do."""

from collections.abc import Mapping

from lims.methods import figure_rules, queries
from lims.methods.models import Characteristic, FiguresRevision, MethodEdition
from lims.people.rules import refusal_of
from lims.record.refusals import ChangedSince, WrongMove

State = FiguresRevision.State


def known() -> Mapping[str, Characteristic]:
    """Every characteristic by its code."""
    return {it.code: it for it in queries.characteristics()}


def check_may_open_draft(edition: MethodEdition) -> None:
    """Refuse a second draft of one edition's figures."""
    draft = queries.figures_draft(edition)
    if draft is not None:
        raise WrongMove(
            f"There is a draft already, {draft}: change that one, or have it approved."
        )


def check_is_draft(revision: FiguresRevision) -> None:
    """Refuse changing figures that were approved or shipped."""
    if revision.state != State.DRAFT:
        raise WrongMove(
            f"Revision {revision.number} of the figures is {revision.state} and cannot "
            "change: open a draft of the next one."
        )


def check_stands(revision: FiguresRevision, seen: int) -> FiguresRevision:
    """The draft as it is stored, unless somebody changed or discarded it since."""
    stored = queries.revisions().filter(pk=revision.pk).first()
    if stored is None or stored.version != seen:
        raise ChangedSince(
            f"The draft of revision {revision.number} was changed by somebody else since "
            "you opened it. Look at it as it is now, then decide again."
        )
    return stored


def check_approval(revision: FiguresRevision) -> None:
    """Refuse approving what is no draft, changes nothing, or holds a figure that cannot stand."""
    check_is_draft(revision)
    old = queries.figures_in_force(revision.edition)
    if queries.figures_of(revision) == queries.figures_of(old):
        raise WrongMove(
            f"Revision {revision.number} says the same as what is in force: change a "
            "figure, or discard the draft."
            if old
            else f"Revision {revision.number} states no figure: enter one, or discard "
            "the draft."
        )
    figure_rules.check_whole(revision.edition, queries.figures_of(revision), known())


why_not_open = refusal_of(check_may_open_draft)
why_not_approve = refusal_of(check_approval)
