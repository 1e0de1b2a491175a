"""What must hold before a fill lot is decided on, whoever decides. Each check raises with the sentence that the person reads."""

from lims.batches.models import FillLot
from lims.batches.moves import check_move
from lims.bench.models import Condition, Determination, Reading
from lims.decisions.review import Review
from lims.people.models import Person
from lims.people.queries import the_site
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from specs.judging.verdicts import Verdict

HOLD_IT = (
    "Put the lot on hold; what happens to it is then decided with the quality manager."
)
COMPLETE_IT = "Complete its tests, or put the lot on hold."


def recorded_here(lot: FillLot, person: Person) -> bool:
    """Whether a person recorded anything of a determination of this lot, or set one aside and began the next."""
    return (
        Reading.objects.filter(
            determination__test__sample__fill_lot=lot, saved_by=person
        ).exists()
        or Condition.objects.filter(
            determination__test__sample__fill_lot=lot, saved_by=person
        ).exists()
        or Determination.objects.filter(
            test__sample__fill_lot=lot, begun_by=person
        ).exists()
    )


def check_is_somebody_else(lot: FillLot, person: Person, *, alone_reason: str) -> None:
    """Who recorded a determination of a lot does not authorise it; a site may allow a deputy alone on duty, who says why."""
    if not recorded_here(lot, person):
        return
    if not the_site().allow_deputy_alone:
        raise NotAllowed(
            f"You recorded readings of {lot}, so another person authorises it. Ask a "
            "laboratory manager or quality manager who did not test it."
        )
    if len(alone_reason.strip()) < 3:
        raise BadInput(
            f"You recorded readings of {lot} yourself. Say why you decide alone; the "
            "record and the review will show it.",
            field="alone_reason",
        )


def check_has_retain(review: Review) -> None:
    if not review.retains and review.exception is None:
        raise WrongMove(
            f"No retain of {review.lot} is kept. Note its place, or have a decision "
            "without a retain allowed."
        )


def check_every_line_is_met(review: Review) -> None:
    own = review.own
    if own is None or not any(line.counts for line in own.lines):
        raise WrongMove(f"{review.lot} is held against no requirement.")
    if own.blocking:
        not_met = [line for line in own.blocking if line.verdict == Verdict.NOT_MET]
        first = next(iter(not_met), own.blocking[0])
        more = len(own.blocking) - 1
        others = f" and {more} more" if more else ""
        raise WrongMove(
            f"{review.lot} cannot be released: {first.requirement.characteristic.name} "
            f"is {first.verdict}{others}. {HOLD_IT if not_met else COMPLETE_IT}"
        )


def check_was_seen(review: Review, seen: str) -> None:
    if review.seen != seen:
        raise ChangedSince(
            f"Something about {review.lot} changed after you opened it, so nothing was "
            "signed. Read the page again; it shows how it stands now."
        )


def check_release(review: Review, *, by: Person, alone_reason: str = "") -> None:
    """Whether this lot may be released by this person now, else the sentence why not."""
    check_move(lot=review.lot, to=FillLot.State.RELEASED)
    check_is_somebody_else(review.lot, by, alone_reason=alone_reason)
    check_has_retain(review)
    check_every_line_is_met(review)


def check_remark(remark: str) -> None:
    if len(remark.strip()) < 3:
        raise BadInput("Say why, in a remark.", field="remark")
