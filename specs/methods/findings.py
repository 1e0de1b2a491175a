"""Results that are pass or fail: one finding, or the majority of three bearings (ASTM D1743, ASTM D5969).

In the rust tests a bearing fails at any spot of 1.0 mm or more, however many there are;
two of three bearings give the result.
"""

from specs.methods.circumstances import APPARATUS, ASKED, conditions, window_bars
from specs.methods.outcome import (
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    setting,
    unanswered,
)
from specs.methods.readings import CAUTION

PASS, FAIL = "pass", "fail"
FINDINGS = (PASS, FAIL)
BEARINGS = 3
NAME = Parameter("name", "What is found", "Finding")
WORDS = Slot("words", "In words", kind="words", optional=True)
KEYS = tuple(f"bearing_{place}" for place in range(1, BEARINGS + 1))


def one_slot(parameters: Parameters) -> tuple[Slot, ...]:
    """The finding, and words that say what was seen."""
    name = setting(parameters, NAME)
    return (Slot("finding", name, kind="rating", choices=FINDINGS), WORDS)


def bearing_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """A finding for each of three bearings."""
    return tuple(
        Slot(
            key,
            f"Bearing {place} (fails at a spot of 1.0 mm or more)",
            kind="rating",
            choices=FINDINGS,
        )
        for place, key in enumerate(KEYS, 1)
    )


def found(given: Given) -> Outcome:
    """Pass or fail as found; a failure must be told in words."""
    missing = unanswered(given, conditions(given.parameters))
    mark = given.mark("finding")
    typed = given.readings.get(WORDS.key, "")
    words = (typed if isinstance(typed, str) else typed.text).strip()
    if mark not in FINDINGS:
        asks = (*missing, *_strange(mark))
        return Outcome(complete=False, accepted=True, asks=asks, says="no finding yet")
    untold = ("Say in words what was seen.",) if mark == FAIL and not words else ()
    return Outcome(
        complete=not missing and not untold,
        accepted=True,
        mark=mark,
        bars=window_bars(given),
        asks=(*untold, *missing),
        says=words or "as found",
        parts={"words": words},
    )


def majority(given: Given) -> Outcome:
    """What two of three bearings or more give; all three must have been looked at."""
    missing = unanswered(given, conditions(given.parameters))
    marks = [given.mark(key) for key in KEYS]
    seen = [mark for mark in marks if mark in FINDINGS]
    asks = (*missing, *(ask for mark in marks for ask in _strange(mark)))
    if len(seen) < BEARINGS:
        says = f"{len(seen)} of {BEARINGS} bearings"
        return Outcome(complete=False, accepted=True, asks=asks, says=says)
    passed = seen.count(PASS)
    return Outcome(
        complete=not missing,
        accepted=True,
        mark=PASS if passed * 2 > BEARINGS else FAIL,
        bars=window_bars(given),
        asks=asks,
        says=f"{passed} of {BEARINGS} bearings pass",
        parts=dict(zip(KEYS, seen, strict=True)),
    )


def _strange(mark: str) -> tuple[str, ...]:
    if not mark or mark in FINDINGS:
        return ()
    return (f"“{mark}” is no finding: choose pass or fail.",)


FINDING = Procedure(
    name="pass or fail as found",
    kind="pass or fail",
    unit="",
    slots=one_slot,
    conditions=conditions,
    carry_out=found,
    caution=CAUTION,
    parameters=(NAME, ASKED, APPARATUS),
    scale=FINDINGS,
)
MAJORITY = Procedure(
    name="majority of three bearings",
    kind="pass or fail",
    unit="",
    slots=bearing_slots,
    conditions=conditions,
    carry_out=majority,
    caution=CAUTION,
    parameters=(ASKED, APPARATUS),
    scale=FINDINGS,
)
