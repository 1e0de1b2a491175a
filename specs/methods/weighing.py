"""Mass % by weighing: what was lost in a test, and what was found.

Lost: evaporation (ASTM D972, D2595), water spray-off (D4049), water washout (D1264);
found: oil separation (D1742, IP 121, DIN 51817). Loss is 100 (S - W) / S with S the
grease before and W after, as D972 and D2595 state it; where the grease is weighed in a
cell or bearing, the empty one is weighed too. Masses in g; mass %, rounded once.
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
    implausible,
    setting,
    unanswered,
)
from specs.methods.readings import PLAUSIBLE, plausible_range
from specs.methods.separation import MassRefused, mass_percent
from specs.numbers import Number, shortened, to_decimal

ALONE, WITH_TARE = "grease alone", "with the empty cell"
WEIGHED = Parameter("weighed", "What is weighed", ALONE, (ALONE, WITH_TARE))
CHARGE = Parameter(
    PLAUSIBLE.key, "Plausible mass of the grease, g", "", check=PLAUSIBLE.check
)
STEP = Parameter("step", "Reported to", "0.1", check=check_step)
TARE = Slot("tare", "Mass of the empty cell or bearing", "g")
BEFORE = Slot("before", "Mass before", "g")
AFTER = Slot("after", "Mass after", "g")
TAKEN = Slot("taken", "Mass of the grease", "g")
FOUND = Slot("found", "Mass found", "g")
CAUTION = (
    "Ovens, baths and vapours are hot and solvents burn: follow local codes and the safety "
    "data sheets, and ask the competent person when in doubt."
)


def loss_slots(parameters: Parameters) -> tuple[Slot, ...]:
    """The masses before and after; with a cell or bearing the empty one first."""
    if setting(parameters, WEIGHED) == ALONE:
        return (BEFORE, AFTER)
    return (TARE, BEFORE, AFTER)


def share_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """The grease taken and what was found."""
    return (TAKEN, FOUND)


def lost(given: Given) -> Outcome:
    """The mass lost in % of the grease before the test."""
    places = loss_slots(given.parameters)
    masses = _masses(given, places)
    if masses is None:
        return _waiting(given, places)
    empty = masses[0] if len(masses) > 2 else Decimal(0)
    before, after = masses[-2] - empty, masses[-1] - empty
    if before < after:
        return _barred(given, "the mass after the test is the greater of the two")
    says = f"{shortened(before - after, 6)} g lost of {shortened(before, 6)} g"
    return _percent(given, before, remaining=after, says=says)


def share(given: Given) -> Outcome:
    """The mass found in % of the grease taken."""
    masses = _masses(given, (TAKEN, FOUND))
    if masses is None:
        return _waiting(given, (TAKEN, FOUND))
    taken, found = masses
    if found > taken:
        return _barred(given, "more was found than was taken")
    says = f"{shortened(found, 6)} g found in {shortened(taken, 6)} g"
    return _percent(given, taken, found=found, says=says)


def _masses(given: Given, places: tuple[Slot, ...]) -> list[Decimal] | None:
    """The plain masses in the order of their slots; None while one is missing."""
    numbers = [given.reading(slot.key) for slot in places]
    plain = [it.value for it in numbers if it is not None and not it.is_censored]
    return plain if len(plain) == len(places) else None


def _waiting(given: Given, places: tuple[Slot, ...]) -> Outcome:
    numbers = [it for slot in places if (it := given.reading(slot.key))]
    if any(number.is_censored for number in numbers):
        return _barred(given, "a mass is a plain number, not a bound", complete=False)
    says = f"{len(numbers)} of {len(places)} masses"
    asks = unanswered(given, conditions(given.parameters))
    return Outcome(complete=False, accepted=True, asks=asks, says=says)


def _percent(
    given: Given,
    taken: Decimal,
    *,
    says: str,
    found: Decimal | None = None,
    remaining: Decimal | None = None,
) -> Outcome:
    try:
        percent = mass_percent(taken, found=found, remaining=remaining)
    except MassRefused as refusal:
        return _barred(given, refusal.sentence.rstrip("."))
    missing = unanswered(given, conditions(given.parameters))
    value = Number.of(to_decimal(percent))
    return Outcome(
        complete=not missing,
        accepted=True,
        value=value,
        reported=_reported(percent, given),
        bars=window_bars(given),
        asks=(*missing, *_doubts(given, taken)),
        says=says,
        parts={"grease": f"{taken:f}", "percent": value.canonical},
    )


def _reported(percent: Fraction, given: Given) -> Number:
    return Number.of(rounded(percent, setting(given.parameters, STEP)))


def _doubts(given: Given, taken: Decimal) -> tuple[str, ...]:
    """A question when the grease weighs more or less than the method takes."""
    bounds = plausible_range(setting(given.parameters, CHARGE))
    weighed = Slot("grease", "The grease weighed", "g", plausible=bounds)
    only = Given({weighed.key: Number.of(taken)}, given.now)
    return implausible(only, (weighed,))


def _barred(given: Given, why: str, *, complete: bool = True) -> Outcome:
    bar = Bar(
        "mass", f"Stored, cannot count: {why}.", "Correct the mass that is wrong."
    )
    asks = unanswered(given, conditions(given.parameters))
    return Outcome(complete=complete, accepted=True, bars=(bar,), asks=asks)


LOSS_BY_WEIGHING = Procedure(
    name="loss by weighing",
    kind="number",
    unit="mass %",
    slots=loss_slots,
    conditions=conditions,
    carry_out=lost,
    caution=CAUTION,
    parameters=(WEIGHED, STEP, CHARGE, ASKED, APPARATUS),
)
SHARE_BY_WEIGHING = Procedure(
    name="share by weighing",
    kind="number",
    unit="mass %",
    slots=share_slots,
    conditions=conditions,
    carry_out=share,
    caution=CAUTION,
    parameters=(STEP, CHARGE, ASKED, APPARATUS),
)
