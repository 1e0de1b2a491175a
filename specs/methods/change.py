"""The change of penetration by prolonged working, from two unrounded means."""

from collections.abc import Mapping
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameters,
    Procedure,
    Slot,
)
from specs.numbers import Number, shortened, to_decimal

WORKED, PROLONGED = "worked", "prolonged"


def no_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """A derived value is read nowhere."""
    return ()


def no_conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """Its circumstances are those of what it is derived from."""
    return ()


def nothing_to_carry_out(_given: Given) -> Outcome:
    """Only `derive` gives a value."""
    return Outcome(complete=False, accepted=True, says="derived from other results")


def derive(values: Mapping[str, Number], _parameters: Parameters) -> Outcome:
    """Prolonged minus worked in 0.1 mm, signed (+ is softer), rounded once to 1.

    `values` holds the unrounded values of "worked" and "prolonged"; while one is
    missing the outcome is incomplete.
    """
    missing = [role for role in (WORKED, PROLONGED) if role not in values]
    if missing:
        asks = tuple(f"The {role} penetration is still to be read." for role in missing)
        return Outcome(complete=False, accepted=True, asks=asks)
    worked, prolonged = values[WORKED], values[PROLONGED]
    if worked.is_censored or prolonged.is_censored:
        bar = Bar(
            "bound",
            "Stored, cannot count: a change needs two plain numbers, not a bound.",
            "Read both penetrations within the range of the cone.",
        )
        return Outcome(complete=True, accepted=True, bars=(bar,))
    return _outcome(worked, prolonged, prolonged.exact - worked.exact)


def _outcome(worked: Number, prolonged: Number, change: Fraction) -> Outcome:
    reported = Number.of(round_to_step(change, "1"))
    signed = f"{reported.value:+f}" if reported.value else "0"
    return Outcome(
        complete=True,
        accepted=True,
        value=Number.of(to_decimal(change)),
        reported=Number(text=signed, value=reported.value),
        says=(
            f"prolonged {shortened(prolonged.value)} less worked "
            f"{shortened(worked.value)} is {signed}"
        ),
        parts={
            WORKED: worked.canonical,
            PROLONGED: prolonged.canonical,
            "signed": signed,
        },
    )


PENETRATION_CHANGE = Procedure(
    name="penetration change",
    kind="number",
    unit="0.1 mm",
    slots=no_slots,
    conditions=no_conditions,
    carry_out=nothing_to_carry_out,
    caution="",
    derived_from=(WORKED, PROLONGED),
    derive=derive,
)
