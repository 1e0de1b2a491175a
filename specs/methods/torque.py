"""Low-temperature torque of a ball bearing (ASTM D1478): dynamometer grams × arm, in mN·m.

Torque in g·cm is the reading in grams times the arm of 6.5 cm; 1 g·cm is 0.0980665 mN·m
(standard gravity, exact), which the method rounds to 0.0981. Reported once, to three
significant digits.
"""

from decimal import Decimal
from fractions import Fraction

from specs.judging.steps import check_step, rounded
from specs.methods.circumstances import APPARATUS, ASKED, conditions, window_bars
from specs.methods.outcome import (
    Bar,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    above_nought,
    setting,
    unanswered,
)
from specs.numbers import Number, Refused, read, shortened, to_decimal

UNIT = "mN·m"
MILLINEWTON_METRES = Decimal("0.0980665")  # of 1 g·cm
STARTING, RUNNING = "starting", "running"
AT = Parameter("at", "Torque", STARTING, (STARTING, RUNNING))
ARM = Parameter("arm", "Arm of the dynamometer, cm", "6.5", check=above_nought)
STEP = Parameter("step", "Reported to", "3 digits", check=check_step)
CAUTION = (
    "The cold chamber and what comes out of it freeze the skin and the bearing turns: follow "
    "local codes and the maker's manual, and ask the competent person when in doubt."
)


class TorqueRefused(Refused):
    """A dynamometer reading or an arm from which no torque follows."""


def gram_centimetres(grams: Decimal, arm: Decimal) -> Fraction:
    """Torque in g·cm of a reading in grams on an arm in cm, exact.

    Raises TorqueRefused for a reading below nought or an arm that is not above it.
    """
    if grams < 0:
        raise TorqueRefused(
            f"The dynamometer shows {grams:f} g, below nought: read it again."
        )
    if arm <= 0:
        raise TorqueRefused(f"An arm of {arm:f} cm turns nothing: measure it.")
    return Fraction(grams) * Fraction(arm)


def millinewton_metres(torque: Decimal | Fraction) -> Fraction:
    """A torque in g·cm as mN·m, exact."""
    return Fraction(torque) * Fraction(MILLINEWTON_METRES)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """The greatest reading at the start, or the one after 60 minutes of running."""
    when = setting(parameters, AT)
    label = f"Dynamometer, {'start' if when == STARTING else 'after 60 min'}"
    return (Slot("dynamometer", label, "g"),)


def carry_out(given: Given) -> Outcome:
    """The torque in mN·m."""
    missing = unanswered(given, conditions(given.parameters))
    grams = given.reading("dynamometer")
    if grams is None:
        return Outcome(complete=False, accepted=True, asks=missing, says="not read yet")
    arm = read(setting(given.parameters, ARM)).value
    try:
        if grams.is_censored:
            raise TorqueRefused("The dynamometer is a plain number, not a bound.")
        torque = gram_centimetres(grams.value, arm)
    except TorqueRefused as refusal:
        sentence = f"Stored, cannot count: {refusal.sentence}"
        bar = Bar("dynamometer", sentence, "Read the dynamometer again.")
        return Outcome(not missing, accepted=True, bars=(bar,), asks=missing)
    value = millinewton_metres(torque)
    return Outcome(
        complete=not missing,
        accepted=True,
        value=Number.of(to_decimal(value)),
        reported=Number.of(rounded(value, setting(given.parameters, STEP))),
        bars=window_bars(given),
        asks=missing,
        says=f"{grams} g on {arm:f} cm is {shortened(torque, 4)} g·cm",
        parts={"g·cm": f"{to_decimal(torque):f}"},
    )


LOW_TEMPERATURE_TORQUE = Procedure(
    name="low-temperature torque",
    kind="number",
    unit=UNIT,
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(AT, ARM, STEP, ASKED, APPARATUS),
)
