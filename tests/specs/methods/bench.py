"""What a technician gives to a procedure, shortly written for tests."""

import datetime as dt

from specs.methods.catalogue import procedure
from specs.methods.outcome import Given
from specs.numbers import read

ZONE = dt.timezone(dt.timedelta(hours=1))


def at(text):
    """A time such as "2026-03-05 08:52:10", in the plant's zone."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=ZONE)


def carried_out(name, readings, /, now="2026-03-05 09:00", **more):
    """The outcome of a procedure on typed readings."""
    return procedure(name).carry_out(given(readings, now, **more))


def given(readings, now="2026-03-05 09:00", times=None, conditions=None, **parameters):
    return Given(
        readings={key: number_or_word(text) for key, text in readings.items()},
        now=at(now),
        times={key: at(text) for key, text in (times or {}).items()},
        conditions=conditions or {},
        parameters=parameters,
    )


def number_or_word(text):
    try:
        return read(text)
    except ValueError:
        return text


def cones(*texts):
    return {f"cone_{place}": text for place, text in enumerate(texts, 1)}


def bar_keys(outcome):
    return [bar.key for bar in outcome.bars]
