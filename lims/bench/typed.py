"""What is typed at the bench, turned into the value that is stored beside it, or refused with a sentence."""

import datetime as dt
import re
from dataclasses import dataclass

from lims.instruments.models import Instrument
from lims.people.queries import site_zone
from lims.record.clock import now
from lims.record.refusals import BadInput
from specs.methods.outcome import Condition, Slot
from specs.numbers import NumberRefused, read

LONGEST_WORDS = 200
CLOCK = re.compile(
    r"(?:(?P<day>\d{4}-\d{2}-\d{2})[ T])?"
    r"(?P<hour>\d{1,2}):(?P<minute>\d{2})(?::(?P<second>\d{2}))?"
)


@dataclass(frozen=True)
class Kept:
    """A condition as it is stored."""

    text: str
    value: str = ""
    instrument: Instrument | None = None
    instrument_state: str = ""


def value_of(slot: Slot, text: str) -> str:
    """The exact value of a reading as stored text. Raises BadInput with what to write instead."""
    if not text:
        raise BadInput(f"Write {slot.label.lower()}.", field=slot.key)
    if slot.kind == "words":
        return _words(slot, text)
    if text.casefold() in slot.choices:
        return text.casefold()
    if slot.kind == "rating":
        raise BadInput(
            f"“{text}” is no rating of this scale. Write one of: "
            f"{', '.join(slot.choices)}.",
            field=slot.key,
        )
    return _number(slot.key, text)


def _words(slot: Slot, text: str) -> str:
    if slot.choices and text.casefold() not in slot.choices:
        raise BadInput(f"Write one of: {', '.join(slot.choices)}.", field=slot.key)
    if len(text) > LONGEST_WORDS:
        raise BadInput(
            f"Write it in at most {LONGEST_WORDS} characters.", field=slot.key
        )
    return text.casefold() if slot.choices else text


def _number(key: str, text: str) -> str:
    try:
        return read(text).canonical
    except NumberRefused as refusal:
        raise BadInput(str(refusal), field=key) from refusal


def condition_of(asked: Condition, text: str) -> Kept:
    """A condition as stored. Raises BadInput with what to write instead."""
    if not text:
        raise BadInput(f"Write {asked.label.lower()}.", field=asked.key)
    if asked.kind == "number":
        return Kept(text, _number(asked.key, text))
    if asked.kind == "time":
        return Kept(text, moment_of(text, field=asked.key).isoformat())
    if asked.kind == "instrument":
        return _instrument(asked, text)
    if text not in asked.choices:
        raise BadInput(f"Choose one of: {', '.join(asked.choices)}.", field=asked.key)
    return Kept(text, text)


def _instrument(asked: Condition, text: str) -> Kept:
    instrument = Instrument.objects.filter(number=text.upper()).first()
    if instrument is None:
        raise BadInput(
            f"No instrument {text} is known here. Choose one of the list, or have it "
            "added under Instruments.",
            field=asked.key,
        )
    today = now().astimezone(site_zone()).date()
    return Kept(
        instrument.number, instrument.number, instrument, instrument.state_on(today)
    )


def moment_of(text: str, *, field: str) -> dt.datetime:
    """A time typed at the bench (08:52:10, or 2026-03-05 08:52:10) in the laboratory's zone; without a day, the last time the clock showed it."""
    found = CLOCK.fullmatch(text.strip())
    if found is None:
        raise BadInput(
            f"“{text}” is no time. Write it like 08:52:10, or with its day like "
            "2026-03-05 08:52:10.",
            field=field,
        )
    here = now().astimezone(site_zone())
    try:
        day = dt.date.fromisoformat(found["day"]) if found["day"] else here.date()
        clock = dt.time(
            int(found["hour"]), int(found["minute"]), int(found["second"] or 0)
        )
    except ValueError as wrong:
        raise BadInput(
            f"“{text}” is no time of any day. Check its figures.", field=field
        ) from wrong
    moment = _in_zone(dt.datetime.combine(day, clock), field=field)
    if not found["day"] and moment > here + dt.timedelta(minutes=1):
        moment = _in_zone(
            dt.datetime.combine(day - dt.timedelta(days=1), clock), field=field
        )
    if moment > here + dt.timedelta(minutes=1):
        raise BadInput("This time lies in the future.", field=field)
    return moment.astimezone(dt.UTC)


def _in_zone(naive: dt.datetime, *, field: str) -> dt.datetime:
    """Refuse the hour that a change of the clocks leaves out or shows twice."""
    zone = site_zone()
    first = naive.replace(tzinfo=zone, fold=0)
    second = naive.replace(tzinfo=zone, fold=1)
    if first.astimezone(dt.UTC) == second.astimezone(dt.UTC):
        return first
    if first.astimezone(dt.UTC).astimezone(zone).replace(tzinfo=None) != naive:
        raise BadInput(
            "The clocks went forward over this time: it did not exist. Write another.",
            field=field,
        )
    raise BadInput(
        "The clocks showed this time twice that night. Write a time outside the hour, "
        "and the exact one as a remark.",
        field=field,
    )
