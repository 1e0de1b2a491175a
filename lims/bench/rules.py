"""What must hold at the bench whoever acts: which lots still take readings, and when a value is typed again or needs a reason."""

from lims.batches.models import FillLot, Sample
from lims.bench import typed
from lims.bench.evaluation import is_set_aside_by_hand
from lims.bench.models import Determination, Test
from lims.record.refusals import BadInput, WrongMove
from specs.methods.outcome import Condition, Slot
from specs.numbers import Number, NumberRefused, read

SHORTEST_REASON, LONGEST_REASON = 3, 300


class NeedsReason(BadInput):
    """The value was saved before with another text; a change says why."""


class TypeAgain(BadInput):
    """The value is implausible for its method; typed again, equal, it is stored."""


def check_takes_readings(sample: Sample) -> None:
    lot = sample.fill_lot
    if lot is not None and lot.state == FillLot.State.RELEASED:
        raise WrongMove(
            f"Fill lot {lot} is released; its readings stand. To correct one, a "
            "laboratory manager puts the lot on hold first."
        )


def again(test: Test) -> Test:
    """The test as the database has it now, for use inside an entry: its lot may have been released since it was read."""
    fresh = Test.objects.select_related(
        "characteristic", "sample__fill_lot", "edition__method"
    ).get(pk=test.pk)
    check_takes_readings(fresh.sample)
    return fresh


def check_may_be_corrected(determination: Determination, test: Test) -> None:
    """What a person set aside stays as it was read; what a rule set aside may be corrected and then stand again."""
    if determination.test_id != test.pk:
        raise WrongMove(f"This set does not belong to {test}. Open the sample again.")
    if is_set_aside_by_hand(determination):
        raise WrongMove(
            f"Set {determination.place} is set aside; its readings stay as they are."
        )


def check_is_entered(test: Test) -> None:
    if test.characteristic.is_derived:
        raise WrongMove(
            f"{test.characteristic} is computed from other tests; nothing is typed for it."
        )


def check_is_typed(condition: Condition) -> None:
    if condition.of_curve:
        raise WrongMove(
            f"{condition.label}: this is said beneath the curve, of what is drawn there."
        )


def check_reason(*, old: str, reason: str, field: str) -> None:
    if len(reason.strip()) < SHORTEST_REASON:
        raise NeedsReason(
            f"{typed.quotable(old)} was saved here before. Say why it changes; both stay in the record.",
            field=field,
        )


def check_reason_fits(reason: str, *, field: str) -> None:
    """Refuse a reason that the record has no room for, or no signs."""
    typed.check_signs(reason, field=field)
    if len(reason.strip()) > LONGEST_REASON:
        raise BadInput(
            f"Write the reason in at most {LONGEST_REASON} characters.", field=field
        )


def check_plausible(*, slot: Slot, value: str, text: str, again: str) -> None:
    """Raise TypeAgain for a number that the method can hardly have read, until it is typed a second time, equal."""
    if slot.plausible is None or slot.kind != "number" or again.strip() == text:
        return
    try:
        number = Number.stored(value)
    except NumberRefused:
        return  # a word that the slot takes, such as "none"
    low, high = (read(bound) for bound in slot.plausible)
    if not low.value <= number.value <= high.value:
        factor = "× " if slot.unit[:1].isdigit() else ""
        bounds = f"{low.text} to {high.text} {factor}{slot.unit}".rstrip()
        raise TypeAgain(
            f"{number.canonical} lies outside {bounds}. "
            "Look at the instrument and type the value again.",
            field=slot.key,
        )


def check_may_be_set_aside(determination: Determination, reason: str) -> None:
    if determination.state == Determination.State.ACCEPTED:
        raise WrongMove(
            "An accepted determination stands and is not replaced by another. If a "
            "reading was typed wrongly, correct that reading with a reason."
        )
    if determination.state == Determination.State.SET_ASIDE:
        raise WrongMove("This determination is set aside already.")
    check_reason_fits(reason, field="reason")
    if len(reason.strip()) < SHORTEST_REASON:
        raise BadInput(
            "Say what was seen: why is this determination set aside?", field="reason"
        )
