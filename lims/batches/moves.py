"""The states of a fill lot: which follows which, and the permission that each move needs. The diagram in DEVELOPERS.md is made from this."""

from lims.batches.models import FillLot
from lims.people.permissions import Permission
from lims.record.refusals import WrongMove

State = FillLot.State

MOVES: dict[tuple[State, State], Permission] = {
    (State.ON_TEST, State.AWAITING_DECISION): Permission.RECORD_READINGS,
    (State.ON_TEST, State.ON_HOLD): Permission.HOLD_LOTS,
    (State.AWAITING_DECISION, State.ON_TEST): Permission.RECORD_READINGS,
    (State.AWAITING_DECISION, State.RELEASED): Permission.AUTHORISE_LOTS,
    (State.AWAITING_DECISION, State.ON_HOLD): Permission.HOLD_LOTS,
    (State.RELEASED, State.ON_HOLD): Permission.HOLD_LOTS,
    (State.ON_HOLD, State.ON_TEST): Permission.HOLD_LOTS,
    (State.ON_HOLD, State.AWAITING_DECISION): Permission.HOLD_LOTS,
}

WHAT_TO_DO = {
    State.ON_TEST: "Its tests come first.",
    State.AWAITING_DECISION: "A laboratory manager decides on it.",
    State.RELEASED: "A laboratory manager can put it on hold.",
    State.ON_HOLD: "A laboratory manager ends the hold first.",
}


def check_move(*, lot: FillLot, to: State) -> None:
    """May a fill lot, by anyone, go from its state to another now? Raises WrongMove with what to do instead."""
    current = State(lot.state)
    if (current, to) not in MOVES:
        raise WrongMove(
            f"Fill lot {lot} is {current}; from there it cannot become {to}. "
            f"{WHAT_TO_DO[current]}"
        )
