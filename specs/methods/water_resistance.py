"""Resistance to standing water (DIN 51807-1): a rating from 0, no change, to 3, major change.

The standard itself was not read; scale and temperatures are those of DIN 51502's letters.
"""

from specs.methods.circumstances import APPARATUS, ASKED, conditions, window_bars
from specs.methods.emcor import rating
from specs.methods.outcome import (
    Given,
    Outcome,
    Parameters,
    Procedure,
    Slot,
    unanswered,
)
from specs.methods.weighing import CAUTION

SCALE = ("0", "1", "2", "3")
RATING = Slot("rating", "Rating", kind="rating", choices=SCALE)


def slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """The one rating."""
    return (RATING,)


def carry_out(given: Given) -> Outcome:
    """The rating as seen."""
    missing = unanswered(given, conditions(given.parameters))
    mark = rating(given, RATING.key)
    if mark not in SCALE:
        strange = (f"“{mark}” is no rating: choose 0 to 3.",) if mark else ()
        asks = (*missing, *strange)
        return Outcome(complete=False, accepted=True, asks=asks, says="no rating yet")
    return Outcome(
        complete=not missing,
        accepted=True,
        mark=mark,
        bars=window_bars(given),
        asks=missing,
        says="as seen",
        parts={"rating": mark},
    )


WATER_RESISTANCE = Procedure(
    name="resistance to standing water",
    kind="rating",
    unit="",
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(ASKED, APPARATUS),
    scale=SCALE,
)
