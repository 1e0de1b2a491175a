"""What the strokes before a cone reading demand: the end in time, the counter, the wait.

Sixty strokes are measured at once (here within three minutes, a house figure). After
prolonged working come 60 more strokes; readings before the strokes can have ended
never count, and until the nominal end the worker's counter is the proof.
"""

from datetime import datetime, timedelta

from specs.methods.moments import duration, moment, next_minute
from specs.methods.outcome import Bar, Condition, Given
from specs.methods.strokes import (
    FASTEST,
    NOMINAL,
    SLOWEST,
    fastest_end,
    nominal_end,
)

LONGEST_WAIT = timedelta(minutes=3)
SHORT = 60

WORKER = Condition(
    "worker", "Grease worker", "instrument", instrument_kind="grease worker"
)
STARTED_AT = Condition("started_at", "Prolonged strokes started", "time")
PER_MINUTE = Condition(
    "strokes_per_minute", "Double strokes a minute", "number", "1/min", default="60"
)
COUNTER = Condition(
    "counter", "Counter at the end", "number", "strokes", required=False
)
BEFORE_READING = Condition("strokes_end", "60 strokes ended", "time")
WORKING = (WORKER, STARTED_AT, PER_MINUTE, COUNTER)


def working_bars(given: Given, strokes: int, read_at: datetime) -> tuple[Bar, ...]:
    """Why a first reading at `read_at` cannot count after so many strokes."""
    if strokes == 0:
        return ()
    if strokes == SHORT:
        return _wait_bars(given, read_at)
    return (
        *_rate_bars(given),
        *_strokes_bars(given, strokes, read_at),
        *_wait_bars(given, read_at),
    )


def spoken(strokes: int) -> str:
    """The strokes in a sentence, "100 000 strokes"; nowhere else is a number grouped."""
    return f"{strokes:,} strokes".replace(",", "\u00a0")


def _wait_bars(given: Given, read_at: datetime) -> tuple[Bar, ...]:
    ended = given.time(BEFORE_READING.key)
    if ended is None or timedelta(0) <= read_at - ended <= LONGEST_WAIT:
        return ()
    if read_at < ended:
        sentence = (
            f"Stored, cannot count: the first cone reading, {moment(read_at)}, "
            f"is earlier than the end of the 60 strokes, {moment(ended)}."
        )
        return (Bar("strokes_end", sentence, "Correct the time that is wrong."),)
    sentence = (
        "Stored, cannot count: the first cone reading came "
        f"{duration(read_at - ended)} after the 60 strokes; "
        f"the house allows {duration(LONGEST_WAIT)}."
    )
    advice = "Work the grease 60 strokes again and read at once, or correct the time."
    return (Bar("strokes_end", sentence, advice),)


def _rate_bars(given: Given) -> tuple[Bar, ...]:
    rate = given.number(PER_MINUTE)
    if rate is None or (not rate.is_censored and SLOWEST <= rate.value <= FASTEST):
        return ()
    return (
        Bar(
            "strokes_per_minute",
            f"Stored, cannot count: the worker ran at {rate} strokes a minute, "
            f"the method allows {SLOWEST} to {FASTEST}.",
            "Correct the rate, or work a fresh fill.",
        ),
    )


def _strokes_bars(given: Given, strokes: int, read_at: datetime) -> tuple[Bar, ...]:
    """Whether the prolonged strokes can have ended, and whether it is shown."""
    started = given.time(STARTED_AT.key)
    if started is not None and read_at < fastest_end(started, strokes):
        return (_too_early(started, strokes),)
    counter = given.number(COUNTER)
    if counter is not None and (counter.sign == "<" or counter.value < strokes):
        sentence = (
            f"Stored, cannot count: the counter shows {counter} of {spoken(strokes)}."
        )
        return (
            Bar("counter", sentence, "Work on to the end, or correct the counter."),
        )
    if counter is not None or started is None:
        return ()
    return _counter_bars(given, started, strokes, read_at)


def _counter_bars(
    given: Given, started: datetime, strokes: int, read_at: datetime
) -> tuple[Bar, ...]:
    """Before the nominal end the counter is the only proof."""
    rate = given.number(PER_MINUTE)
    stated = NOMINAL if rate is None else rate.value
    per_minute = min(max(stated, SLOWEST), FASTEST)
    ends = nominal_end(started, strokes, per_minute)
    if read_at >= ends:
        return ()
    sentence = (
        f"Stored, cannot count yet: {spoken(strokes)} at {per_minute} a minute "
        f"end {moment(ends)}; only the counter shows that they ended earlier."
    )
    return (Bar("counter", sentence, "Give the counter reading of the worker."),)


def _too_early(started: datetime, strokes: int) -> Bar:
    earliest = next_minute(fastest_end(started, strokes))
    return Bar(
        "too_early",
        f"Stored, cannot count: {spoken(strokes)} started {moment(started)} cannot have "
        f"ended before {moment(earliest)}; at {FASTEST} a minute, the fastest allowed, "
        f"they take {duration(earliest - started)}.",
        "Let the strokes end and take a fresh set, or correct the start.",
    )
