"""Oxidation induction time by pressure DSC (ASTM D5483), from the curve of one run.

The time goes from the admission of oxygen to the extrapolated onset, in minutes, and is
reported to 0.1 min; the result is the mean of two such determinations. A person sees the
curve with both lines and accepts or rejects it. Precision is stated from 9.0 to 45.3 min.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from specs.judging.rounding import round_to_step
from specs.methods.onset import Onset, OnsetRefused, onset
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    setting,
    unanswered,
)
from specs.numbers import Number, shortened

UNIT, STEP = "min", "0.1"
PRECISE = (Decimal("9.0"), Decimal("45.3"))
LONGEST = Decimal(600)  # no run lasts so long in minutes: the file may be in seconds
TEMPERATURES = ("155", "180", "210")
ACCEPTED, REJECTED = "accepted", "rejected"

TEMPERATURE = Parameter(
    "temperature", "Temperature of the method", "", ("", *TEMPERATURES)
)
EXOTHERM = Parameter("exotherm", "Exotherm in the curve points", "up", ("up", "down"))

INSTRUMENT = Condition(
    "calorimeter", "Pressure DSC", "instrument", instrument_kind="pressure DSC"
)
HELD_AT = Condition(
    "temperature", "Temperature of the run", "choice", "°C", choices=TEMPERATURES
)
ADMITTED = Condition("admitted", "Oxygen admitted at", "number", "min")
BASE_FROM = Condition("baseline_from", "Baseline from", "number", "min")
BASE_TO = Condition("baseline_to", "Baseline to", "number", "min")
CURVE = Condition(
    "curve",
    "Curve with both lines seen",
    "choice",
    choices=(ACCEPTED, REJECTED),
    of_curve=True,
)
TYPED = (INSTRUMENT, HELD_AT, ADMITTED, BASE_FROM, BASE_TO)
CONDITIONS = (*TYPED, CURVE)

NO_CURVE = "The curve is still to be read in."
LOOK = "Look at the curve with both lines, then accept or reject it."
CAUTION = (
    "Oxygen under pressure feeds fire and the cell is hot: no oil or grease on fittings, "
    "follow local codes and the safety data sheet; work only as the licensed or "
    "competent person directs."
)


@dataclass(frozen=True)
class Times:
    """The three times that a person gives, in minutes of the curve."""

    admitted: Decimal
    baseline: tuple[Decimal, Decimal]


def induction_time(
    trace: Sequence[tuple[Decimal, Decimal]], times: Times, *, falls: bool = False
) -> tuple[Decimal, Onset]:
    """Minutes from the admission of oxygen to the onset, and the onset itself.

    Raises OnsetRefused as `onset` does, and where oxygen came outside the curve or
    after the onset.
    """
    found = onset(trace, times.baseline, falls=falls)
    first, last = trace[0][0], trace[-1][0]
    if not first <= times.admitted <= last:
        raise OnsetRefused(
            f"Oxygen admitted at {times.admitted:f} min lies outside the curve, which goes "
            f"from {first:f} to {last:f} min: correct the time."
        )
    if times.admitted >= found.minutes:
        raise OnsetRefused(
            f"Oxygen admitted at {times.admitted:f} min comes after the onset at "
            f"{shortened(found.minutes)} min: correct the time."
        )
    return found.minutes - times.admitted, found


def no_slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """Nothing is typed: the curve is read in."""
    return ()


def conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """Instrument, temperature, the times on the curve, and what a person says of it."""
    return CONDITIONS


def carry_out(given: Given) -> Outcome:
    """The induction time as soon as the curve and its times are there."""
    missing = unanswered(given, TYPED)
    if given.choice(CURVE) is None:
        missing = (*missing, LOOK)
    asks = (*(() if given.trace else (NO_CURVE,)), *missing, *_doubts(given))
    bars = (*_temperature_bars(given), *_curve_bars(given))
    complete = bool(given.trace) and not missing
    numbers = [given.number(it) for it in (ADMITTED, BASE_FROM, BASE_TO)]
    plain = [it.value for it in numbers if it and not it.is_censored]
    if any(number and number.is_censored for number in numbers):
        bars = (*bars, _bar("a time on the curve is a plain number, not a bound"))
    if not given.trace or len(plain) < len(numbers):
        return Outcome(
            complete=complete, accepted=True, bars=bars, asks=asks, says="no onset yet"
        )
    admitted, begin, end = plain
    falls = setting(given.parameters, EXOTHERM) == "down"
    try:
        minutes, found = induction_time(
            given.trace, Times(admitted, (begin, end)), falls=falls
        )
    except OnsetRefused as refusal:
        bars = (*bars, _bar(refusal.sentence.rstrip(".")))
        return Outcome(
            complete=complete, accepted=True, bars=bars, asks=asks, says="no onset"
        )
    reported = round_to_step(minutes, STEP)
    return Outcome(
        complete=complete,
        accepted=True,
        value=Number.of(minutes),
        reported=Number.of(reported),
        bars=bars,
        asks=(*asks, *_range_doubts(reported)),
        says=(
            f"onset at {shortened(found.minutes)} min of the curve, oxygen admitted at "
            f"{admitted:f} min; baseline {begin:f} to {end:f} min, tangent through five "
            f"points from {found.five[0][0]:f} min"
        ),
        parts=_parts(found),
    )


def _parts(found: Onset) -> dict[str, str]:
    """Both lines, the five points and the crossing, as text, so that they can be drawn."""
    return {
        "onset": f"{found.minutes:f}",
        "baseline_slope": f"{found.baseline.slope!r}",
        "baseline_intercept": f"{found.baseline.intercept!r}",
        "tangent_slope": f"{found.tangent.slope!r}",
        "tangent_intercept": f"{found.tangent.intercept!r}",
        "five_minutes": " ".join(f"{time:f}" for time, _ in found.five),
        "five_signals": " ".join(f"{signal:f}" for _, signal in found.five),
    }


def _bar(why: str) -> Bar:
    return Bar(
        "onset",
        f"Stored, cannot count: {why[:1].lower()}{why[1:]}.",
        "Correct the times, or read in the curve of another run.",
    )


def _curve_bars(given: Given) -> tuple[Bar, ...]:
    if given.choice(CURVE) != REJECTED:
        return ()
    return (
        Bar(
            "curve",
            "Stored, cannot count: the curve was seen and rejected.",
            "Choose another baseline, or make a fresh run.",
        ),
    )


def _temperature_bars(given: Given) -> tuple[Bar, ...]:
    asked, held = setting(given.parameters, TEMPERATURE), given.choice(HELD_AT)
    if not asked or held is None or held == asked:
        return ()
    return (
        Bar(
            "temperature",
            f"Stored, cannot count: the run was held at {held} °C, "
            f"this characteristic is at {asked} °C.",
            f"Make a run at {asked} °C, or correct the temperature.",
        ),
    )


def _doubts(given: Given) -> tuple[str, ...]:
    doubts = []
    if given.trace and given.trace[-1][0] > LONGEST:
        doubts.append(
            f"The curve ends at {given.trace[-1][0]:f} min: "
            "see whether its times are seconds, and write the file again in minutes."
        )
    admitted, begin = given.number(ADMITTED), given.number(BASE_FROM)
    if admitted and begin and begin.value < admitted.value:
        doubts.append(
            f"The baseline begins at {begin} min, before oxygen was admitted at "
            f"{admitted} min: choose it after, or leave it if it is right."
        )
    return tuple(doubts)


def _range_doubts(reported: Decimal) -> tuple[str, ...]:
    low, high = PRECISE
    if low <= reported <= high:
        return ()
    doubt = f"{reported} min is outside {low} to {high} min: "
    return (f"{doubt}the method states no precision there.",)


INDUCTION_TIME = Procedure(
    name="oxidation induction time, pressure DSC",
    kind="number",
    unit=UNIT,
    slots=no_slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(TEMPERATURE, EXOTHERM),
    takes_trace=True,
)
