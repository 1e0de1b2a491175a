"""Deciding on a fill lot, each time with a signature bound to exactly what was seen."""

import json

from lims.batches.models import FillLot
from lims.batches.moves import check_move
from lims.bench.models import Test
from lims.bench.reporting import state_by_tests
from lims.decisions import rules
from lims.decisions.models import Decision, FrozenVerdict
from lims.decisions.review import Review, review_of
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record import signatures
from lims.record.filled import check_filled
from lims.record.gate import entry
from specs import chain

State = FillLot.State
Disposition = Decision.Disposition

REVIEWED = "reviewed and authorised"
HELD = "put on hold"
HOLD_ENDED = "hold ended"


def release(
    *,
    fill_lot: FillLot,
    seen: str,
    password: str,
    remark: str = "",
    alone_reason: str = "",
    by: Person,
) -> Decision:
    """Release a lot whose every requirement is met; `seen` is the fingerprint of the review that was open."""
    check(by, Permission.AUTHORISE_LOTS)
    with entry(by=by, verb="lot_released", about=fill_lot) as record:
        lot = _again(fill_lot)
        review = review_of(lot)
        check_move(lot=lot, to=State.RELEASED)
        rules.check_was_seen(review, seen)
        rules.check_release(review, by=by, alone_reason=alone_reason)
        is_alone = rules.recorded_here(lot, by)
        reason = alone_reason.strip() if is_alone else ""
        record.reason = f"Decided alone: {reason}" if reason else ""
        decision = _sign(
            review,
            disposition=Disposition.RELEASE,
            meaning=f"{REVIEWED}, decided alone" if reason else REVIEWED,
            remark=remark,
            alone_reason=reason,
            password=password,
            by=by,
        )
        _move(decision, State.RELEASED)
        _authorise_tests(lot)
    return decision


def hold(
    *, fill_lot: FillLot, seen: str, password: str, remark: str, by: Person
) -> Decision:
    """Put a lot on hold: nothing of it may leave until a new decision."""
    check(by, Permission.HOLD_LOTS)
    rules.check_remark(remark)
    with entry(by=by, verb="lot_put_on_hold", about=fill_lot, reason=remark.strip()):
        lot = _again(fill_lot)
        review = review_of(lot)
        rules.check_was_seen(review, seen)
        check_move(lot=lot, to=State.ON_HOLD)
        decision = _sign(
            review,
            disposition=Disposition.HOLD,
            meaning=HELD,
            remark=remark,
            password=password,
            by=by,
        )
        _move(decision, State.ON_HOLD)
        _reopen_tests(lot)
    return decision


def end_hold(
    *, fill_lot: FillLot, seen: str, password: str, remark: str, by: Person
) -> Decision:
    """End a hold: the lot goes back to its tests, or to its decision when they are all reported."""
    check(by, Permission.HOLD_LOTS)
    rules.check_remark(remark)
    with entry(by=by, verb="hold_ended", about=fill_lot, reason=remark.strip()):
        lot = _again(fill_lot)
        review = review_of(lot)
        rules.check_was_seen(review, seen)
        to = state_by_tests(lot)
        check_move(lot=lot, to=to)
        decision = _sign(
            review,
            disposition=Disposition.END_HOLD,
            meaning=HOLD_ENDED,
            remark=remark,
            password=password,
            by=by,
        )
        _move(decision, to)
    return decision


def _again(lot: FillLot) -> FillLot:
    """The lot as it stands inside the entry, whatever the page had in its hands."""
    return FillLot.objects.select_related("batch__product__sampling_plan").get(
        pk=lot.pk
    )


def _sign(
    review: Review,
    *,
    disposition: Disposition,
    meaning: str,
    remark: str,
    password: str,
    alone_reason: str = "",
    by: Person,
) -> Decision:
    signature = signatures.sign(
        by=by,
        password=password,
        meaning=meaning,
        about=review.lot,
        version=review.lot.version,
        content=_content(review, disposition, remark.strip(), alone_reason),
    )
    decision = Decision(
        fill_lot=review.lot,
        disposition=disposition,
        remark=" ".join(remark.split()),
        alone_reason=alone_reason,
        signature=signature,
        decided_at=signature.at,
        decided_by=by,
    )
    check_filled(decision)
    decision.save()
    _freeze(decision, review)
    return decision


def _content(
    review: Review, disposition: Disposition, remark: str, alone_reason: str
) -> str:
    """What is signed: the decision in its own words, and everything that was seen."""
    signed = {
        "disposition": disposition.value,
        "remark": remark,
        "alone reason": alone_reason,
        "seen": json.loads(review.content),
    }
    return chain.canonical(signed).decode()


def _freeze(decision: Decision, review: Review) -> None:
    for held in review.held:
        for line in held.lines:
            FrozenVerdict(
                decision=decision,
                requirement=line.requirement,
                verdict=str(line.verdict) if line.verdict else "",
                reported=line.result.reported if line.result else "",
                compared=line.compared,
                evidence=line.evidence,
                source=line.source,
                why=line.why,
            ).save()


def _move(decision: Decision, to: State) -> None:
    lot = decision.fill_lot
    lot.state, lot.state_since = to, decision.decided_at
    lot.save()


def _authorise_tests(lot: FillLot) -> None:
    for test in Test.objects.filter(
        sample__fill_lot=lot, sample__counts=True, state=Test.State.REPORTED
    ):
        test.state = Test.State.AUTHORISED
        test.save()


def _reopen_tests(lot: FillLot) -> None:
    for test in Test.objects.filter(sample__fill_lot=lot, state=Test.State.AUTHORISED):
        test.state = Test.State.REPORTED
        test.save()
