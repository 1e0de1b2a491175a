"""Roll stability (ASTM D1831): the change of penetration by a roller, one determination.

Three cones before and three after two hours of rolling, each set a mean that is converted
to the full-scale cone first where a reduced one was used. The value is after less before,
signed (+ is softer), in 0.1 mm, from unrounded means and rounded once. The method rolls
50 g for 2 h ± 5 min at 20 to 35 °C.
"""

from datetime import timedelta
from decimal import Decimal
from fractions import Fraction

from specs.judging.rounding import round_to_step
from specs.methods.moments import duration
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
from specs.methods.penetration import (
    PENETROMETER,
    PLAUSIBLE,
    READINGS,
    TEMPERATURE,
    UNIT,
    from_cones,
    sense_bars,
    temperature_bars,
)
from specs.methods.reduced import (
    FULL,
    SCALES,
    conversion,
    reduced_parts,
    scope_bars,
)
from specs.numbers import Number, shortened, to_decimal

BEFORE, AFTER = "before", "after"
SCALE = Parameter("scale", "Cone scale", "quarter", tuple(SCALES))
ROLLED, MARGIN = timedelta(hours=2), timedelta(minutes=5)
COLDEST, WARMEST = Decimal(20), Decimal(35)

ROLLER = Condition("roller", "Roll tester", "instrument", instrument_kind="roll tester")
STARTED = Condition("rolling_started", "Rolling started", "time")
ENDED = Condition("rolling_ended", "Rolling ended", "time")
ROOM = Condition("room", "Temperature while rolling", "number", "°C")
CONDITIONS = (PENETROMETER, TEMPERATURE, ROLLER, STARTED, ENDED, ROOM)
CAUTION = (
    "The roller is heavy and turns, the cone is sharp: keep fingers clear, follow local "
    "codes and the safety data sheet, and ask the competent person when in doubt."
)


def slots(parameters: Parameters) -> tuple[Slot, ...]:
    """Three cones before rolling and three after, on the same scale."""
    scale = setting(parameters, SCALE)
    cone = "cone reading" if scale == FULL else f"reading on the {scale} cone"
    return tuple(
        Slot(
            f"{when}_{place}",
            f"{when.capitalize()} rolling, {cone} {place}",
            UNIT,
            plausible=PLAUSIBLE[scale],
        )
        for when in (BEFORE, AFTER)
        for place in range(1, READINGS + 1)
    )


def conditions(_parameters: Parameters) -> tuple[Condition, ...]:
    """Both instruments, the temperatures, and when the rolling started and ended."""
    return CONDITIONS


def carry_out(given: Given) -> Outcome:
    """The change of penetration from six cone readings."""
    scale = setting(given.parameters, SCALE)
    numbers = {when: _read(given, when) for when in (BEFORE, AFTER)}
    every = [number for each in numbers.values() for number in each]
    missing = unanswered(given, CONDITIONS)
    bars = (
        *temperature_bars(given),
        *_room_bars(given),
        *_rolling_bars(given),
        *sense_bars(every),
    )
    asks = (*missing, *implausible(given, slots(given.parameters)))
    complete = len(every) == 2 * READINGS and not missing
    plain = {
        when: [number.value for number in each if not number.is_censored]
        for when, each in numbers.items()
    }
    before, after = (from_cones(plain[when], scale).mean for when in (BEFORE, AFTER))
    if before is None or after is None:
        says = f"{len(every)} of {2 * READINGS} cone readings"
        return Outcome(complete, accepted=True, bars=bars, asks=asks, says=says)
    change = after - before
    return Outcome(
        complete=complete,
        accepted=True,
        value=Number.of(to_decimal(change)),
        reported=_signed(change),
        bars=(*bars, *scope_bars(before, scale), *scope_bars(after, scale)),
        asks=asks,
        says=_says(before, after, scale),
        parts=_parts(plain, before, after, scale),
    )


def _read(given: Given, when: str) -> list[Number]:
    keys = (f"{when}_{place}" for place in range(1, READINGS + 1))
    return [number for key in keys if (number := given.reading(key))]


def _signed(change: Fraction) -> Number:
    rounded = round_to_step(change, "1")
    return Number(text=f"{rounded:+f}" if rounded else "0", value=rounded)


def _says(before: Fraction, after: Fraction, scale: str) -> str:
    says = f"after rolling {shortened(after)} less before {shortened(before)}"
    if scale == FULL:
        return says
    return f"{says}, both to full scale by {conversion(scale)} from the {scale} cone"


def _parts(
    plain: dict[str, list[Decimal]], before: Fraction, after: Fraction, scale: str
) -> dict[str, str]:
    parts = {
        BEFORE: f"{to_decimal(before):f}",
        AFTER: f"{to_decimal(after):f}",
    }
    for when, readings in plain.items():
        reduced = reduced_parts(readings, scale)
        parts |= {f"{when}_{key}": text for key, text in reduced.items()}
    return parts


def _room_bars(given: Given) -> tuple[Bar, ...]:
    room = given.number(ROOM)
    if room is None or (not room.is_censored and COLDEST <= room.value <= WARMEST):
        return ()
    return (
        Bar(
            "room",
            f"Stored, cannot count: rolled at {room} °C, "
            f"the method asks for {COLDEST} to {WARMEST} °C.",
            "Roll a fresh portion, or correct the temperature.",
        ),
    )


def _rolling_bars(given: Given) -> tuple[Bar, ...]:
    """The rolling lasts two hours; the cones after it come after it."""
    started, ended = given.time(STARTED.key), given.time(ENDED.key)
    if ended is None:
        return ()
    bars = []
    if started is not None and abs(ended - started - ROLLED) > MARGIN:
        lasted = (
            f"ended {duration(started - ended)} before it started"
            if ended < started
            else f"lasted {duration(ended - started)}"
        )
        bars.append(
            Bar(
                "rolling",
                f"Stored, cannot count: the rolling {lasted}, the method asks for "
                "2 h, at most 5 min more or less.",
                "Roll a fresh portion, or correct the time that is wrong.",
            )
        )
    read_at = [given.read_at(slot.key) for slot in _after(given)]
    if read_at and min(read_at) < ended:
        bars.append(
            Bar(
                "rolling_ended",
                "Stored, cannot count: a cone after rolling was read before it ended.",
                "Correct the time that is wrong.",
            )
        )
    return tuple(bars)


def _after(given: Given) -> list[Slot]:
    return [
        slot
        for slot in slots(given.parameters)
        if slot.key.startswith(AFTER) and given.reading(slot.key)
    ]


ROLL_STABILITY = Procedure(
    name="roll stability",
    kind="number",
    unit=UNIT,
    slots=slots,
    conditions=conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(SCALE,),
)
