"""Results that are a mark and no number: copper strip (ASTM D4048), appearance."""

from specs.methods.outcome import (
    Condition,
    Given,
    Outcome,
    Parameters,
    Procedure,
    Slot,
)

# least tarnished first; an order, never to be averaged
COPPER_SCALE = (
    "1a", "1b", "2a", "2b", "2c", "2d", "2e", "3a", "3b", "4a", "4b", "4c",
)  # fmt: skip
FINDINGS = ("met", "not met")

STRIPS = (
    Slot("strip_1", "Strip 1", kind="rating", choices=COPPER_SCALE),
    Slot("strip_2", "Strip 2", kind="rating", choices=COPPER_SCALE, optional=True),
)
FINDING = Slot("finding", "Appearance as agreed", kind="rating", choices=FINDINGS)
WORDS = Slot("words", "In words", kind="words", optional=True)
OVEN = Condition(
    "bath", "Bath or oven", "instrument", required=False, instrument_kind="oven"
)


def no_conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """Looking needs no instrument."""
    return ()


def copper_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """One strip, and a second where two were used."""
    return STRIPS


def copper_conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """The bath or oven, if the laboratory wants it named."""
    return (OVEN,)


def rate_copper(given: Given) -> Outcome:
    """The rating of the strip; of two, that of the more tarnished."""
    marks = [given.mark(slot.key) for slot in STRIPS if given.mark(slot.key)]
    strange = tuple(mark for mark in marks if mark not in COPPER_SCALE)
    asks = tuple(
        f"“{mark}” is no rating of the copper strip: choose 1a to 4c."
        for mark in strange
    )
    if strange or not given.mark(STRIPS[0].key):
        return Outcome(complete=False, accepted=True, asks=asks, says="no rating yet")
    worst = max(marks, key=COPPER_SCALE.index)
    two = len(marks) > 1
    return Outcome(
        complete=True,
        accepted=True,
        mark=worst,
        says=f"the more tarnished of {' and '.join(marks)}" if two else "one strip",
        parts={f"strip_{place}": mark for place, mark in enumerate(marks, 1)},
    )


def appearance_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """The finding, and words that say what was seen."""
    return (FINDING, WORDS)


def find_appearance(given: Given) -> Outcome:
    """Met or not met; what is not met must be told in words."""
    finding, words = given.mark(FINDING.key), _words(given)
    if finding not in FINDINGS:
        asks = ("Choose met or not met.",) if finding else ()
        return Outcome(complete=False, accepted=True, asks=asks, says="no finding yet")
    if finding == "not met" and not words:
        asks = ("Say in words what was seen.",)
        return Outcome(complete=False, accepted=True, mark=finding, asks=asks)
    return Outcome(
        complete=True,
        accepted=True,
        mark=finding,
        says=words or "as agreed",
        parts={"words": words},
    )


def _words(given: Given) -> str:
    found = given.readings.get(WORDS.key, "")
    return found.strip() if isinstance(found, str) else found.text.strip()


COPPER_STRIP = Procedure(
    name="copper strip",
    kind="rating",
    unit="",
    slots=copper_slots,
    conditions=copper_conditions,
    carry_out=rate_copper,
    caution=(
        "The bath is hot and the solvents burn: clean the strips away from heat, follow "
        "local codes and the safety data sheet, ask the competent person when in doubt."
    ),
    scale=COPPER_SCALE,
)
APPEARANCE = Procedure(
    name="appearance",
    kind="rating",
    unit="",
    slots=appearance_slots,
    conditions=no_conditions,
    carry_out=find_appearance,
    caution="",
    scale=FINDINGS,
)
