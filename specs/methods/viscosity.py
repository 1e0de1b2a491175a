"""Kinematic viscosity of a base oil and its viscosity index (ASTM D2270, ISO 2909).

Viscosities are in mm²/s at 40 °C (U) and 100 °C (Y). Neither L nor H is rounded: the
index is computed from exact values and rounded once to the whole number, half to even.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Context, Decimal, localcontext
from fractions import Fraction
from itertools import pairwise

from specs.judging.rounding import mean, round_to_step
from specs.judging.steps import rounded
from specs.methods.change import no_conditions, no_slots, nothing_to_carry_out
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameters,
    Procedure,
    Slot,
    implausible,
    unanswered,
)
from specs.methods.viscosity_table import POINTS
from specs.numbers import Number, Refused, shortened, to_decimal

UNIT = "mm²/s"
STEP = "4 digits"
AT_40, AT_100 = "kv40", "kv100"
LOWEST, LAST = POINTS[0][0], POINTS[-1][0]
_PRECISE = Context(prec=40)

# Wide enough for solvents and for the stiffest base oil; a house figure.
PLAUSIBLE = ("1", "5000")
FIRST = Slot("kv_1", "Kinematic viscosity 1", UNIT, plausible=PLAUSIBLE)
SECOND = Slot("kv_2", "Kinematic viscosity 2", UNIT, plausible=PLAUSIBLE, optional=True)
VISCOMETER = Condition(
    "viscometer", "Viscometer", "instrument", instrument_kind="viscometer"
)
CAUTION = (
    "The bath and the oil are hot and cleaning solvents burn: follow local codes and the "
    "safety data sheet, and ask the competent person when in doubt."
)


class ViscosityRefused(Refused):
    """Two viscosities from which no index follows."""


@dataclass(frozen=True)
class Index:
    """A viscosity index, unrounded and reported, with the L and H it came from."""

    low: Fraction
    high: Fraction
    value: Decimal
    reported: Decimal
    by: str  # procedure A or B of the standard


def viscosity_index(kv40: Decimal, kv100: Decimal) -> Index:
    """The viscosity index of an oil from its viscosities in mm²/s.

    Procedure A where kv40 is at least H (an index of 100 or less), else procedure B;
    at 100 both agree. Raises ViscosityRefused below 2 mm²/s at 100 °C, where the
    index is not defined, and where kv40 is not above kv100.
    """
    if kv100 < LOWEST:
        raise ViscosityRefused(
            f"{kv100:f} mm²/s at 100 °C is below {LOWEST}: there the viscosity index is "
            "not defined. Report the viscosities alone."
        )
    if kv40 <= kv100:
        raise ViscosityRefused(
            f"{kv40:f} mm²/s at 40 °C is not above {kv100:f} mm²/s at 100 °C: "
            "an oil thins when it is warmed. See whether the two are exchanged."
        )
    low, high = basic_values(Fraction(kv100))
    if kv40 >= high:
        value = to_decimal((low - Fraction(kv40)) * 100 / (low - high))
        by = "A"
    else:
        value, by = _by_logarithms(kv40, kv100, high), "B"
    return Index(low, high, value, round_to_step(value, "1"), by)


def basic_values(kv100: Fraction) -> tuple[Fraction, Fraction]:
    """L and H in mm²/s: from the table to 70 mm²/s, by the formulas above it."""
    if kv100 > LAST:
        square = kv100 * kv100
        return (
            Fraction("0.8353") * square + Fraction("14.67") * kv100 - 216,
            Fraction("0.1684") * square + Fraction("11.85") * kv100 - 97,
        )
    before, after = next(pair for pair in pairwise(POINTS) if kv100 <= pair[1][0])
    y, low, high = map(Fraction, before)
    next_y, next_low, next_high = map(Fraction, after)
    share = (kv100 - y) / (next_y - y)
    return low + share * (next_low - low), high + share * (next_high - high)


def _by_logarithms(kv40: Decimal, kv100: Decimal, high: Fraction) -> Decimal:
    """Procedure B, to 28 digits: 100 + (10^N − 1) / 0.00715."""
    with localcontext(_PRECISE):
        ratio = Decimal(high.numerator) / Decimal(high.denominator) / kv40
        power = ratio.log10() / kv100.log10()
        value = (10**power - 1) / Decimal("0.00715") + 100
    return to_decimal(Fraction(value))


def slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """One viscosity, and a second where two were measured."""
    return (FIRST, SECOND)


def conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """The viscometer; the temperature is that of the characteristic."""
    return (VISCOMETER,)


def carry_out(given: Given) -> Outcome:
    """The mean of one or two viscosities, reported to four significant digits."""
    read = [number for slot in (FIRST, SECOND) if (number := given.reading(slot.key))]
    missing = unanswered(given, (VISCOMETER,))
    asks = (*missing, *implausible(given, (FIRST, SECOND)))
    if given.reading(FIRST.key) is None:
        return Outcome(
            complete=False, accepted=True, asks=asks, says="no viscosity yet"
        )
    if any(number.is_censored or number.value <= 0 for number in read):
        bar = Bar(
            "reading",
            "Stored, cannot count: a viscosity is a plain number above 0.",
            "Correct it, or measure again in a tube that fits the oil.",
        )
        return Outcome(complete=not missing, accepted=True, bars=(bar,), asks=asks)
    average = mean([number.value for number in read])
    value = Number.of(to_decimal(average))
    both = " and ".join(number.canonical for number in read)
    return Outcome(
        complete=not missing,
        accepted=True,
        value=value,
        reported=Number.of(rounded(average, STEP)),
        asks=asks,
        says=f"mean of {both}" if len(read) > 1 else "one determination",
        parts={"mean": value.canonical},
    )


def derive(values: Mapping[str, Number], _parameters: Parameters) -> Outcome:
    """The index from the unrounded viscosities "kv40" and "kv100" in mm²/s."""
    asks = tuple(
        f"The kinematic viscosity at {degrees} °C is still to be measured."
        for role, degrees in ((AT_40, 40), (AT_100, 100))
        if role not in values
    )
    if asks:
        return Outcome(complete=False, accepted=True, asks=asks)
    kv40, kv100 = values[AT_40], values[AT_100]
    if kv40.is_censored or kv100.is_censored:
        return _barred(
            "Stored, cannot count: an index needs two plain numbers, not a bound."
        )
    try:
        index = viscosity_index(kv40.value, kv100.value)
    except ViscosityRefused as refusal:
        return _barred(f"No index: {refusal.sentence}")
    return Outcome(
        complete=True,
        accepted=True,
        value=Number.of(index.value),
        reported=Number.of(index.reported),
        says=(
            f"from {shortened(kv40.value, 4)} mm²/s at 40 °C and "
            f"{shortened(kv100.value, 4)} mm²/s at 100 °C by procedure {index.by}"
        ),
        parts={
            "L": f"{to_decimal(index.low):f}",
            "H": f"{to_decimal(index.high):f}",
            "procedure": index.by,
        },
    )


def _barred(sentence: str) -> Outcome:
    bar = Bar("index", sentence, "Measure both viscosities again, or correct them.")
    return Outcome(complete=True, accepted=True, bars=(bar,))


KINEMATIC_VISCOSITY = Procedure(
    name="kinematic viscosity",
    kind="number",
    unit=UNIT,
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
)
VISCOSITY_INDEX = Procedure(
    name="viscosity index",
    kind="number",
    unit="",
    slots=no_slots,
    conditions=no_conditions,
    carry_out=nothing_to_carry_out,
    caution="",
    derived_from=(AT_40, AT_100),
    derive=derive,
)
