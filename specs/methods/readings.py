"""Results that are a number as the apparatus gives it, or the mean of equal readings.

Name, unit, step and sign are settings of the characteristic, so that one procedure
serves wear scars, leakage, torque, lives, pressures and contents. Units: as set; no
conversion. Readings that are no number, too few, or only bounds where a mean is asked
never give a value that counts.
"""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import mean
from specs.judging.steps import check_step, rounded
from specs.methods.circumstances import (
    APPARATUS,
    ASKED,
    conditions,
    window_bars,
)
from specs.methods.outcome import (
    Bar,
    Given,
    Outcome,
    Parameter,
    Parameters,
    ParametersRefused,
    Procedure,
    Slot,
    above_nought,
    implausible,
    setting,
    unanswered,
)
from specs.numbers import Number, read, shortened, to_decimal

NOT_BELOW_NOUGHT, SIGNED = "not below nought", "signed"
MOST_READINGS = 12


def plausible_range(text: str) -> tuple[str, str] | None:
    """The two bounds of "0.2 to 4"; None for an empty text."""
    if not text:
        return None
    low, joint, high = text.partition(" to ")
    if not joint or read(low).value > read(high).value:
        raise ParametersRefused("write it as 0.2 to 4, the smaller number first.")
    return low.strip(), high.strip()


NAME = Parameter("name", "What is read", "Number as read")
UNIT = Parameter("unit", "Unit", "")
STEP = Parameter("step", "Reported to", "1", check=check_step)
SIGN = Parameter("sign", "Sign", NOT_BELOW_NOUGHT, (NOT_BELOW_NOUGHT, SIGNED))
PLAUSIBLE = Parameter("plausible", "Plausible range", "", check=plausible_range)
COUNT = Parameter(
    "count", "Readings", "3", tuple(str(it) for it in range(2, MOST_READINGS + 1))
)
SPREAD_LIMIT = Parameter(
    "spread_limit",
    "House limit of the spread",
    "",
    house=True,
    check=above_nought,
)
CAUTION = (
    "Machines turn, bodies are hot, cold or under load, reagents harm: follow local codes, "
    "the safety data sheets and the maker's manual, and ask the competent person when in "
    "doubt."
)


def one_slot(parameters: Parameters) -> tuple[Slot, ...]:
    """The one number."""
    return (_slot("reading", setting(parameters, NAME), parameters),)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """So many equal readings, in the order of reading."""
    name = setting(parameters, NAME)
    places = range(1, int(setting(parameters, COUNT)) + 1)
    return tuple(
        _slot(f"reading_{place}", f"{name} {place}", parameters) for place in places
    )


def as_read(given: Given) -> Outcome:
    """The number as read, rounded once to the step; a bound stays a bound."""
    places, asked = one_slot(given.parameters), conditions(given.parameters)
    number = given.reading(places[0].key)
    missing = unanswered(given, asked)
    asks = (*missing, *implausible(given, places))
    if number is None:
        return Outcome(complete=False, accepted=True, asks=asks, says="not read yet")
    value = Number.of(number.value, number.sign)
    return Outcome(
        complete=not missing,
        accepted=True,
        value=value,
        reported=value if value.is_censored else _reported(value.value, given),
        bars=(*window_bars(given), *_below_nought(given, places)),
        asks=asks,
        says="only a bound was read" if value.is_censored else "as read",
        parts={"reading": value.canonical},
    )


def mean_of(given: Given) -> Outcome:
    """The mean of all readings, unrounded, and reported once to the step."""
    places, asked = slots(given.parameters), conditions(given.parameters)
    numbers = [number for slot in places if (number := given.reading(slot.key))]
    missing = unanswered(given, asked)
    asks = (*missing, *implausible(given, places))
    bars = (*window_bars(given), *_below_nought(given, places), *_bounds(numbers))
    plain = [number.value for number in numbers if not number.is_censored]
    if len(plain) < len(places):
        says = f"{len(numbers)} of {len(places)} readings"
        complete = len(numbers) == len(places) and not missing
        return Outcome(complete, accepted=True, bars=bars, asks=asks, says=says)
    average = mean(plain)
    spread = max(plain) - min(plain)
    apart = _too_far_apart(spread, setting(given.parameters, SPREAD_LIMIT))
    value = Number.of(to_decimal(average))
    return Outcome(
        complete=not missing,
        accepted=not apart,
        value=value,
        reported=_reported(average, given),
        bars=bars,
        asks=(*apart, *asks),
        says=_says([number.canonical for number in numbers], spread),
        parts=_parts(numbers, value, spread),
    )


def _slot(key: str, label: str, parameters: Parameters) -> Slot:
    return Slot(
        key,
        label,
        setting(parameters, UNIT),
        plausible=plausible_range(setting(parameters, PLAUSIBLE)),
    )


def _reported(value: Decimal | Fraction, given: Given) -> Number:
    """Rounded once; a change is written with its sign."""
    short = Number.of(rounded(value, setting(given.parameters, STEP)))
    if setting(given.parameters, SIGN) != SIGNED or short.value <= 0:
        return short
    return Number(text=f"+{short.canonical}", value=short.value)


def _below_nought(given: Given, places: Sequence[Slot]) -> tuple[Bar, ...]:
    if setting(given.parameters, SIGN) == SIGNED:
        return ()
    return tuple(
        Bar(
            f"sign_{slot.key}",
            f"Stored, cannot count: {slot.label.lower()} is {number}, below nought.",
            "Read the apparatus again, or correct the sign.",
        )
        for slot in places
        if (number := given.reading(slot.key)) and number.value < 0
    )


def _bounds(numbers: Sequence[Number]) -> tuple[Bar, ...]:
    if not any(number.is_censored for number in numbers):
        return ()
    sentence = "Stored, cannot count: a bound cannot be averaged."
    return (Bar("bound", sentence, "Read the apparatus again."),)


def _too_far_apart(spread: Decimal, limit: str) -> tuple[str, ...]:
    if not limit or spread <= read(limit).value:
        return ()
    apart = f"these differ by {shortened(spread, 4)}"
    return (f"Take fresh readings: {apart}, more than the house limit of {limit}.",)


def _says(texts: Sequence[str], spread: Decimal) -> str:
    return f"mean of {', '.join(texts[:-1])} and {texts[-1]}; spread {shortened(spread, 4)}"


def _parts(numbers: Sequence[Number], value: Number, spread: Decimal) -> dict[str, str]:
    each = {f"reading_{it}": number.canonical for it, number in enumerate(numbers, 1)}
    return {**each, "mean": value.canonical, "spread": f"{spread:f}"}


_SETTINGS = (NAME, UNIT, STEP, SIGN, PLAUSIBLE, ASKED, APPARATUS)
NUMBER_AS_READ = Procedure(
    name="number as read",
    kind="number",
    unit="",
    slots=one_slot,
    conditions=conditions,
    carry_out=as_read,
    caution=CAUTION,
    parameters=_SETTINGS,
)
MEAN_OF_READINGS = Procedure(
    name="mean of equal readings",
    kind="number",
    unit="",
    slots=slots,
    conditions=conditions,
    carry_out=mean_of,
    caution=CAUTION,
    parameters=(COUNT, *_SETTINGS, SPREAD_LIMIT),
)
