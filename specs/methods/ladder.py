"""Loads that only exist as steps of a ladder: four-ball weld load (ASTM D2596), Timken OK load (ASTM D2509).

A load between two steps is never a result and no two are ever averaged. Unit as set
(kgf, lbf or N). ">800" says that nothing happened at the last load of the ladder, "<80"
that it happened below the first.
"""

from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise

from specs.methods.circumstances import APPARATUS, ASKED, conditions, window_bars
from specs.methods.outcome import (
    Bar,
    Given,
    Outcome,
    Parameter,
    Parameters,
    ParametersRefused,
    Procedure,
    Slot,
    setting,
    unanswered,
)
from specs.methods.readings import CAUTION, UNIT
from specs.numbers import Number, Refused, read


class LadderRefused(Refused):
    """A load that is no step of the ladder."""


def read_ladder(text: str) -> tuple[Decimal, ...]:
    """The loads of "80 100 126", lowest first. Raises a Refused for any other order."""
    loads = tuple(read(load).value for load in text.split())
    if len(loads) < 2 or any(low >= high for low, high in pairwise(loads)):
        raise ParametersRefused("write two loads or more, the lowest first.")
    return loads


NAME = Parameter("name", "What is read", "Load")
LADDER = Parameter(
    "ladder",
    "Loads of the ladder",
    "80 100 126 160 200 250 315 400 500 620 800",
    check=read_ladder,
)


def check_load(load: Number, ladder: Sequence[Decimal]) -> None:
    """Raise LadderRefused, naming the neighbours, unless the load is a step.

    A bound is only known beyond an end: ">" with the last load, "<" with the first.
    """
    if load.is_censored:
        end = ladder[-1] if load.sign == ">" else ladder[0]
        if load.value != end:
            raise LadderRefused(
                f"{load} is no result: write a load of the ladder, or {load.sign}{end:f} "
                f"beyond its {'last' if load.sign == '>' else 'first'} load."
            )
        return
    if load.value in ladder:
        return
    below = [step for step in ladder if step < load.value]
    above = [step for step in ladder if step > load.value]
    if below and above:
        where = f"it lies between {below[-1]:f} and {above[0]:f}"
    elif below:
        where = f"it lies above the last, {below[-1]:f}; write >{below[-1]:f}"
    else:
        where = f"it lies below the first, {above[0]:f}; write <{above[0]:f}"
    raise LadderRefused(f"{load} is no load of the ladder: {where}.")


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """The one load."""
    return (Slot("load", setting(parameters, NAME), setting(parameters, UNIT)),)


def _advice(parameters: Parameters) -> str:
    """Which loads there are, in their unit."""
    unit, ladder = setting(parameters, UNIT), setting(parameters, LADDER).split()
    steps = f"{', '.join(ladder)} {unit}".rstrip()
    return f"Write the load at which it happened. The ladder: {steps}."


def carry_out(given: Given) -> Outcome:
    """The load as read, when it is a step of the ladder; never rounded."""
    missing = unanswered(given, conditions(given.parameters))
    load = given.reading("load")
    if load is None:
        return Outcome(complete=False, accepted=True, asks=missing, says="not read yet")
    try:
        check_load(load, read_ladder(setting(given.parameters, LADDER)))
    except LadderRefused as refusal:
        sentence = f"Stored, cannot count: {refusal.sentence}"
        bar = Bar("ladder", sentence, _advice(given.parameters))
        return Outcome(not missing, accepted=True, bars=(bar,), asks=missing)
    value = Number.of(load.value, load.sign)
    return Outcome(
        complete=not missing,
        accepted=True,
        value=value,
        reported=value,
        bars=window_bars(given),
        asks=missing,
        says="beyond the ladder" if load.is_censored else "a load of the ladder",
        parts={"load": value.canonical},
    )


LADDER_LOAD = Procedure(
    name="load of a ladder",
    kind="ladder",
    unit="",
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(NAME, LADDER, UNIT, ASKED, APPARATUS),
)
