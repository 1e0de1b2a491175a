"""What is typed at the bench, turned into the value that is stored beside it, or refused with a sentence."""

import datetime as dt
import re
import unicodedata
from dataclasses import dataclass

from lims.instruments.models import Instrument
from lims.people.days import check_sensible
from lims.people.queries import site_zone
from lims.record.clock import now
from lims.record.refusals import BadInput
from specs.methods.outcome import Condition, Slot
from specs.numbers import NumberRefused, read

LONGEST_WORDS = 200
LONGEST_VALUE = 40  # of a number written out, as it is stored
LONGEST_QUOTED = 40
EARLIEST, LATEST = 1990, 2100  # years of a time at the bench
LAYOUT = "\t\r\n"  # control characters that keyboards and forms do send
CLOCK = re.compile(
    r"(?:(?P<day>[0-9]{4}-[0-9]{2}-[0-9]{2})[ T])?"
    r"(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?::(?P<second>[0-9]{2}))?"
)


@dataclass(frozen=True)
class Kept:
    """A condition as it is stored."""

    text: str
    value: str = ""
    instrument: Instrument | None = None
    instrument_state: str = ""


def plain(text: str) -> str:
    """The text without control characters, which no database of the laboratory is sure to keep."""
    return "".join(
        mark
        for mark in text
        if mark in LAYOUT or unicodedata.category(mark) not in {"Cc", "Cs"}
    )


def quotable(text: str) -> str:
    """The text as it can stand in a sentence: short and on one line."""
    line = " ".join(plain(text).split())
    return f"{line[:LONGEST_QUOTED]}…" if len(line) > LONGEST_QUOTED else line


def check_signs(text: str, *, field: str) -> None:
    if plain(text) != text:
        raise BadInput(
            "This holds signs that cannot be shown. Type it again by hand.",
            field=field,
        )


def check_year(moment: dt.date, *, field: str) -> None:
    """Before any reckoning with zones, which fails at the ends of the calendar."""
    if not EARLIEST <= moment.year <= LATEST:
        raise BadInput(
            f"The year {moment.year} cannot be right. Write one from {EARLIEST} to "
            f"{LATEST}.",
            field=field,
        )


def value_of(slot: Slot, text: str) -> str:
    """The exact value of a reading as stored text. Raises BadInput with what to write instead."""
    check_signs(text, field=slot.key)
    if not text:
        raise BadInput(f"Write {slot.label.lower()}.", field=slot.key)
    if slot.kind == "words":
        return _words(slot, text)
    if text.casefold() in slot.choices:
        return text.casefold()
    if slot.kind == "rating":
        raise BadInput(
            f"“{quotable(text)}” is no rating of this scale. Write one of: "
            f"{', '.join(slot.choices)}.",
            field=slot.key,
        )
    return _number(slot.key, text, slot.unit)


def _words(slot: Slot, text: str) -> str:
    if slot.choices and text.casefold() not in slot.choices:
        raise BadInput(f"Write one of: {', '.join(slot.choices)}.", field=slot.key)
    if len(text) > LONGEST_WORDS:
        raise BadInput(
            f"Write it in at most {LONGEST_WORDS} characters.", field=slot.key
        )
    return text.casefold() if slot.choices else text


def _number(key: str, text: str, unit: str) -> str:
    try:
        value = read(text, unit).canonical
    except NumberRefused as refusal:
        raise BadInput(str(refusal), field=key) from refusal
    if len(value) > LONGEST_VALUE:
        raise BadInput(
            "No instrument reads that finely. Write the number with fewer noughts.",
            field=key,
        )
    return value


def condition_of(asked: Condition, text: str) -> Kept:
    """A condition as stored. Raises BadInput with what to write instead."""
    check_signs(text, field=asked.key)
    if not text:
        raise BadInput(f"Write {asked.label.lower()}.", field=asked.key)
    if asked.kind == "number":
        return Kept(text, _number(asked.key, text, asked.unit))
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
            f"No instrument {quotable(text)} is known here. Choose one of the list, or have it "
            "added under Instruments.",
            field=asked.key,
        )
    if instrument.kind.casefold() != asked.instrument_kind.casefold():
        raise BadInput(
            f"{instrument.number} is {_a(instrument.kind)}; here "
            f"{_a(asked.instrument_kind)} is asked for.",
            field=asked.key,
        )
    today = now().astimezone(site_zone()).date()
    return Kept(
        instrument.number, instrument.number, instrument, instrument.state_on(today)
    )


def _a(kind: str) -> str:
    return f"{'an' if kind[:1].casefold() in 'aeiou' else 'a'} {kind}"


def moment_of(text: str, *, field: str) -> dt.datetime:
    """A time typed at the bench (08:52:10, or 2026-03-05 08:52:10) in the laboratory's zone; without a day, the last time the clock showed it."""
    found = CLOCK.fullmatch(text.strip())
    if found is None:
        raise BadInput(
            f"“{quotable(text)}” is no time. Write it like 08:52:10, or with its day like "
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
            f"“{text.strip()}” is no time of any day. Check its figures.", field=field
        ) from wrong
    check_year(day, field=field)
    check_sensible(day, field=field)
    moment = _in_zone(dt.datetime.combine(day, clock), field=field)
    if not found["day"] and moment > here + dt.timedelta(minutes=1):
        moment = _in_zone(
            dt.datetime.combine(day - dt.timedelta(days=1), clock), field=field
        )
    if moment > here + dt.timedelta(minutes=1):
        raise BadInput("This time lies in the future.", field=field)
    return moment.astimezone(dt.UTC)


def has_day(text: str) -> bool:
    """Whether a time was typed with its day."""
    found = CLOCK.fullmatch(text.strip())
    return found is not None and found["day"] is not None


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
