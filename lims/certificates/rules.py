"""What must hold before packs are allotted and a certificate is issued, whoever acts."""

from collections.abc import Iterable

from django.db.models import Sum

from lims.batches.models import FillLot
from lims.batches.moves import WHAT_TO_DO
from lims.certificates import queries
from lims.certificates.figures import in_sentence, limits_in_sentence
from lims.certificates.models import Allotment, Certificate
from lims.decisions.models import Decision, FrozenVerdict
from lims.decisions.queries import release_of
from lims.decisions.verdicts import Line
from lims.people.rules import twin
from lims.products.models import Customer, Revision
from lims.record.refusals import BadInput, WrongMove
from specs.judging.verdicts import Verdict

OTHERS = 3  # lots that a refusal names


def packs_left(lot: FillLot) -> int:
    """How many packs of a lot are not allotted to an order."""
    allotted = Allotment.objects.filter(fill_lot=lot, is_given_back=False).aggregate(
        total=Sum("pack_count")
    )["total"]
    return lot.pack_count - int(allotted or 0)


def check_is_released(lot: FillLot) -> Decision:
    """The release that a lot stands under; raises when there is none."""
    release = release_of(lot)
    if release is None:
        state = FillLot.State(lot.state)
        raise WrongMove(
            f"Fill lot {lot} is {state}, so nothing of it may leave. {WHAT_TO_DO[state]}"
        )
    return release


def check_packs(lot: FillLot, pack_count: int) -> None:
    left = packs_left(lot)
    if pack_count < 1:
        raise BadInput("Write how many packs: at least 1.", field="pack_count")
    if pack_count > left:
        raise BadInput(
            f"Of {lot} {left} of {lot.pack_count} packs are left. Write at most {left}, "
            "or give back packs of another order.",
            field="pack_count",
        )


def check_order(order: str) -> str:
    order = order.strip()
    if not order:
        raise BadInput("Write the customer's order.", field="order")
    if len(order) > 40:
        raise BadInput("Write the order in at most 40 characters.", field="order")
    return order


def revision_for(lot: FillLot, customer: Customer) -> Revision:
    """The revision that the certificate prints: the customer's own where the lot is held against one, else the product's."""
    held = lot.held_against.select_related("revision__specification")
    own: Revision | None = None
    for each in held:
        if each.revision.specification.customer_id == customer.pk:
            return each.revision
        if each.is_own:
            own = each.revision
    if own is None:
        raise WrongMove(f"{lot} is held against no specification.")
    _check_customer_has_none(lot, customer)
    return own


def _check_customer_has_none(lot: FillLot, customer: Customer) -> None:
    """A customer's revision that came into force later was not judged when the lot was released: not tested is not met."""
    later = Revision.objects.filter(
        state=Revision.State.IN_FORCE,
        specification__customer=customer,
        specification__product=lot.batch.product_id,
    ).first()
    if later is not None:
        raise WrongMove(
            f"{later} came into force after {lot} was registered, so the lot has no "
            f"verdict against it. Take a lot registered since {later.in_force_on}."
        )


def check_met_for(decision: Decision, revision: Revision) -> None:
    """Every limit of the revision was met when the lot was released; else the blocking lines are named."""
    lines = [
        blocking_in_words(it)
        for it in queries.blocking(decision)
        if it.requirement.revision_id == revision.pk
    ]
    if lines:
        raise WrongMove(
            f"This lot does not meet {revision}: {'; '.join(lines)}. {_others(revision)}"
        )


def blocking_in_words(then: FrozenVerdict) -> str:
    """`Worked penetration 292 (265 to 295 × 0.1 mm; inside the limits, outside the acceptance zone …)`."""
    it = then.requirement.characteristic
    told = limits_in_sentence(then.requirement)
    if then.verdict == Verdict.NOT_MET and then.why:
        told = f"{told}; {then.why}"
    return f"{it.name} {in_sentence(then.reported, it) or then.verdict} ({told})"


def _others(revision: Revision) -> str:
    """Which lots may leave instead: what must leave first stands first."""
    told = [
        f"{lot} meets it, {lot.left} {'pack' if lot.left == 1 else 'packs'} left"  # type: ignore[attr-defined]
        for lot in queries.lots_that_meet(revision)[:OTHERS]
    ]
    if not told:
        return "No released lot with packs left meets it."
    return f"Choose another lot: {'; '.join(told)}."


def check_still_stands(decision: Decision, lines: Iterable[Line]) -> None:
    """What is printed is what was signed: a line that reads otherwise now, or rests on something else, stops the paper."""
    frozen = {v.requirement_id: v for v in decision.verdicts.all()}
    for line in lines:
        then = frozen.get(line.requirement.pk)
        if then is None or _as_signed(then) != _as_it_stands(line):
            raise WrongMove(
                f"{line.requirement.characteristic.name} no longer reads as it was "
                f"signed: {_told(_as_signed(then) if then else ())} then, "
                f"{_told(_as_it_stands(line))} now. Put the lot on hold and decide again."
            )


def _as_signed(then: FrozenVerdict) -> tuple[str, ...]:
    return then.reported, then.verdict, then.evidence, then.source


def _as_it_stands(line: Line) -> tuple[str, ...]:
    return (
        line.result.reported if line.result else "",
        str(line.verdict) if line.verdict else "",
        line.evidence,
        line.source,
    )


def _told(parts: tuple[str, ...]) -> str:
    return ", ".join(filter(None, parts)) or "nothing"


def check_not_issued(allotment: Allotment) -> None:
    if allotment.is_given_back:
        raise WrongMove("These packs were given back. Allot packs again first.")
    issued = Certificate.objects.filter(allotment=allotment).first()
    if issued is not None:
        raise WrongMove(
            f"Certificate {issued.number} was issued for these packs. Open it instead."
        )


def check_no_certificate_yet() -> None:
    """Refuse to move the numbers once one is printed on a paper."""
    last = Certificate.objects.order_by("year", "sequence").last()
    if last is not None:
        raise WrongMove(
            f"Certificates have begun here: the last is {last.number}. Their numbers "
            "go on from it."
        )


can_begin_numbers = twin(check_no_certificate_yet)
