"""What a rest after the strokes demands before a cone is read: its hours, and what follows.

The grease rests in the cup, from the end of the strokes to the first cone or, where it is
worked again, to the end of those 60 strokes. A cone read before the hours are over never
counts for that rest; one read long after them (more than a tenth, a house figure) is
questioned. No standard states the rest: its hours belong to the characteristic.
"""

from datetime import datetime, timedelta

from specs.methods.moments import duration, moment
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Parameter,
    Parameters,
    ParametersRefused,
    above_nought,
    setting,
)
from specs.methods.working import BEFORE_READING, SHORT, WORKER, working_bars
from specs.numbers import read

REST = Parameter("rest", "Hours of rest after the strokes", "", check=above_nought)
REWORKED = Parameter("reworked", "Worked again after the rest", "no", ("no", "60"))
RESTING = Condition("started_at", "Strokes ended and the rest began", "time")


def rest_of(parameters: Parameters, strokes: str) -> timedelta | None:
    """How long the grease rests after so many strokes; None where it does not.

    Raises ParametersRefused for a rest after no strokes. Without a rest it makes no
    difference whether the grease is worked again: the method itself asks for 60 strokes.
    """
    hours = setting(parameters, REST)
    if hours and strokes == "0":
        raise ParametersRefused(
            f"A rest of {hours} h follows strokes: choose how many, or leave it out."
        )
    return timedelta(seconds=float(read(hours).value * 3600)) if hours else None


def is_reworked(parameters: Parameters) -> bool:
    """Whether 60 strokes follow the rest."""
    return setting(parameters, REWORKED) == "60"


def rest_conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """The worker, when its strokes ended and, where it was used again, those 60."""
    again = (BEFORE_READING,) if is_reworked(parameters) else ()
    return (WORKER, RESTING, *again)


def rest_bars(given: Given, rest: timedelta, read_at: datetime) -> tuple[Bar, ...]:
    """Why a first reading at `read_at` cannot count after such a rest."""
    again = working_bars(given, SHORT, read_at) if is_reworked(given.parameters) else ()
    span = _rested(given, read_at)
    if span is None or span >= rest:
        return again
    return (_too_early(given, span, rest), *again)


def rest_doubts(given: Given, rest: timedelta, read_at: datetime) -> tuple[str, ...]:
    """A question where the grease rested much longer than it should."""
    span = _rested(given, read_at)
    if span is None or span <= rest * 11 / 10:
        return ()
    question = (
        f"The grease rested {duration(span)} instead of {_in_words(rest)}: correct the "
        "time that is wrong, or leave it if it is right."
    )
    return (question,)


def _rested(given: Given, read_at: datetime) -> timedelta | None:
    """From the end of the strokes to the first cone or to the 60 strokes after the rest."""
    began = given.time(RESTING.key)
    again = given.time(BEFORE_READING.key) if is_reworked(given.parameters) else None
    return None if began is None else (again or read_at) - began


def _too_early(given: Given, span: timedelta, rest: timedelta) -> Bar:
    began = given.time(RESTING.key)
    if span < timedelta(0) or began is None:
        what = (
            "the 60 strokes ended" if is_reworked(given.parameters) else "it was read"
        )
        return Bar(
            "rest",
            f"Stored, cannot count: {what} {duration(span)} before the rest began.",
            "Correct the time that is wrong.",
        )
    return Bar(
        "rest",
        f"Stored, cannot count: rested {duration(span)} of {_in_words(rest)}; "
        f"the rest ends {moment(began + rest)}.",
        "Let the grease rest to the end and take a fresh cup, or correct the time.",
    )


def _in_words(rest: timedelta) -> str:
    """Whole hours without minutes: "24 h", else as any span."""
    return duration(rest).removesuffix(" 00 min")
