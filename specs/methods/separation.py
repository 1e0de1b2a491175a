"""Loss or gain of mass in percent: oil separation by the cone sieve (ASTM D6184)."""

from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    implausible,
    setting,
    unanswered,
)
from specs.numbers import Number, Refused, to_decimal

STEP = Parameter("step", "Reported to", "0.1", ("1", "0.1", "0.01"))
SAMPLE = Slot("sample", "Mass of the grease", "g", plausible=("5", "20"))
OIL = Slot("oil", "Mass of the oil", "g")
OVEN = Condition("oven", "Oven", "instrument", required=False, instrument_kind="oven")
CAUTION = (
    "The oven, the sieve and the beaker are hot and solvents burn: clean away from heat, "
    "follow local codes and the safety data sheet, ask the competent person when in doubt."
)


class MassRefused(Refused):
    """Masses from which no percentage follows."""


def mass_percent(
    taken: Decimal, *, found: Decimal | None = None, remaining: Decimal | None = None
) -> Fraction:
    """100 × found / taken, or 100 × (taken − remaining) / taken, exact, in mass %.

    Raises MassRefused when `taken` is not above zero, when neither or both of the
    others are given, or when one is below zero.
    """
    if taken <= 0:
        raise MassRefused("The mass taken must be above 0: weigh it again.")
    if (found is None) == (remaining is None):
        raise MassRefused("Give the mass found or the mass remaining, one of the two.")
    part = found if found is not None else remaining
    if part is None or part < 0:
        raise MassRefused("A mass is not below 0: tare the balance and weigh again.")
    share = Fraction(part) if found is not None else Fraction(taken) - Fraction(part)
    return share * 100 / Fraction(taken)


def slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """The grease taken and the oil found, both in grams."""
    return (SAMPLE, OIL)


def conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """The oven, if the laboratory wants it named."""
    return (OVEN,)


def carry_out(given: Given) -> Outcome:
    """The oil in mass % of the grease taken."""
    sample, oil = given.reading(SAMPLE.key), given.reading(OIL.key)
    asks = (*unanswered(given, (OVEN,)), *implausible(given, (SAMPLE,)))
    if sample is None or oil is None:
        says = f"{(sample is not None) + (oil is not None)} of 2 masses"
        return Outcome(complete=False, accepted=True, asks=asks, says=says)
    if sample.is_censored or oil.is_censored:
        return _barred(asks, "a mass is a plain number, not a bound")
    try:
        percent = mass_percent(sample.value, found=oil.value)
    except MassRefused as refusal:
        return _barred(asks, refusal.sentence.rstrip("."))
    step = setting(given.parameters, STEP)
    value = Number.of(to_decimal(percent))
    return Outcome(
        complete=True,
        accepted=True,
        value=value,
        reported=Number.of(round_to_step(percent, step)),
        bars=_bars(sample, oil),
        asks=asks,
        says=f"{oil} g of oil from {sample} g of grease",
        parts={"percent": value.canonical},
    )


def _barred(asks: tuple[str, ...], why: str) -> Outcome:
    bar = Bar("mass", f"Stored, cannot count: {why}.", "Correct the mass.")
    return Outcome(complete=True, accepted=True, bars=(bar,), asks=asks)


def _bars(sample: Number, oil: Number) -> tuple[Bar, ...]:
    if oil.value <= sample.value:
        return ()
    return (
        Bar(
            "mass",
            f"Stored, cannot count: the oil ({oil} g) weighs more than the grease "
            f"({sample} g) it came from.",
            "Correct the mass that is wrong.",
        ),
    )


OIL_SEPARATION = Procedure(
    name="oil separation, cone sieve",
    kind="number",
    unit="mass %",
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(STEP,),
)
