"""The time column of a logger's file: since a start, by the clock, or by day and clock; as microseconds since the first reading."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from specs.numbers import Refused
from specs.tables.cells import Cells
from specs.tables.days.reading import read_days
from specs.tables.forms.cells import BLANK, refused
from specs.tables.forms.moments import parted, read_time
from specs.tables.saying import Answers, Choice, Fate, Question, Said
from specs.tables.sheet import DAY, EMPTY, MOMENT, NUMBER

SECOND, MINUTE, HOUR, A_DAY = 1_000_000, 60_000_000, 3_600_000_000, 86_400_000_000
UNITS_OF_TIME = {"s": SECOND, "min": MINUTE, "h": HOUR}
SERIAL = "serial"
UNIT = "time unit"
EARLIEST, LATEST = 32874, 73415  # 1990 and 2100 as counted by a workbook from 1900
_COUNT = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{1,20})?")
_CLOCK = re.compile(
    r"(?P<hour>[0-9]{1,3}):(?P<minute>[0-9]{2})(?::(?P<second>[0-9]{2}(?:[.,][0-9]{1,6})?))?"
)


@dataclass
class Times:
    """One place a row: the microsecond since midnight of the first day or since the start; None where a row tells none."""

    at: list[int | None]
    said: list[Said]
    first_day: dt.date | None = None
    questions: list[Question] = field(default_factory=list)
    answered: list[Question] = field(default_factory=list)
    rule: str = ""


def read_times(
    time: Cells,
    day: Cells | None,
    *,
    unit: str,
    today: dt.date,
    is_1904: bool,
    answers: Answers,
) -> Times:
    """The times of a log. `unit` is what the head says of numbers, empty where it says none. Raises nothing."""
    if day is not None and not any(it.strip() for it in day.texts):
        day = None
    texts = [it for it in time.texts if it.strip()]
    if day is None and texts and _are_numbers(texts):
        return _counted(time, unit, is_1904=is_1904, answers=answers)
    return _by_the_clock(time, day, today=today, is_1904=is_1904, answers=answers)


def _are_numbers(texts: Sequence[str]) -> bool:
    """Whether a column counts: nine of ten cells are numbers; the rest is told cell by cell."""
    numbers = sum(1 for it in texts if _number(it) is not None)
    return numbers * 10 >= len(texts) * 9


def _number(text: str) -> Decimal | None:
    """A time as a number with all its digits: a workbook writes the part of a day with eleven."""
    plain = text.strip().replace(",", ".")
    return Decimal(plain) if _COUNT.fullmatch(plain) else None


def _counted(time: Cells, unit: str, *, is_1904: bool, answers: Answers) -> Times:
    numbers = [_number(it) if it.strip() else None for it in time.texts]
    told = [it for it in numbers if it is not None]
    key = f"{time.letter}/{UNIT}"
    asked = None if unit else _unit_question(key, time, told)
    unit = unit or answers.choices.get(key, "")
    if unit not in (*UNITS_OF_TIME, SERIAL):
        waits = Said(Fate.ASKS, why="Its unit is asked.", question=key)
        said = [BLANK if it is None else waits for it in numbers]
        return Times([None] * len(numbers), said, questions=[asked] if asked else [])
    times = _of_numbers(time, numbers, unit, is_1904=is_1904)
    times.answered = [asked] if asked else []
    return times


def _of_numbers(
    time: Cells, numbers: Sequence[Decimal | None], unit: str, *, is_1904: bool
) -> Times:
    size = A_DAY if unit == SERIAL else UNITS_OF_TIME[unit]
    at = [
        None if it is None else int((it * size).to_integral_value()) for it in numbers
    ]
    first_day = None
    if unit == SERIAL:
        first = min(it for it in at if it is not None) // A_DAY
        begins = dt.date(1904, 1, 1) if is_1904 else dt.date(1899, 12, 30)
        first_day = begins + dt.timedelta(days=first)
        at = [None if it is None else it - first * A_DAY for it in at]
    said = [
        _not_a_time(text) if it is None else BLANK
        for it, text in zip(numbers, time.texts, strict=True)
    ]
    told = "days counted by the workbook" if unit == SERIAL else f"in {unit}"
    return Times(at, said, first_day, rule=told)


def _not_a_time(text: str) -> Said:
    if not text.strip():
        return BLANK
    return refused(
        f"“{text.strip()[:40]}” is no time: write it, or leave the reading out."
    )


def _unit_question(key: str, time: Cells, numbers: Sequence[Decimal]) -> Question:
    choices = [
        Choice("s", "Seconds", _span(numbers, SECOND)),
        Choice("min", "Minutes", _span(numbers, MINUTE)),
        Choice("h", "Hours", _span(numbers, HOUR)),
    ]
    proposed = ""
    if all(EARLIEST <= it <= LATEST for it in numbers):
        choices.append(
            Choice(SERIAL, "Days, as a workbook counts them", _days(numbers))
        )
        proposed = SERIAL if any(it % 1 for it in numbers) else ""
    return Question(
        key,
        time.letter,
        UNIT,
        "column",
        "In which unit does the time column count?",
        tuple(choices),
        tuple(time.address(it) for it in range(min(3, len(time.rows)))),
        len(numbers),
        proposed,
    )


def _span(numbers: Sequence[Decimal], size: int) -> str:
    return f"the log lasts {in_words(int((max(numbers) - min(numbers)) * size))}"


def _days(numbers: Sequence[Decimal]) -> str:
    begins = dt.date(1899, 12, 30)
    return f"from {begins + dt.timedelta(days=int(min(numbers)))}"


def in_words(span: int) -> str:
    """A span of microseconds as people say it: 3 h 12 min, 40 s."""
    seconds = span // SECOND
    if seconds < 120:
        return f"{seconds} s"
    minutes = seconds // 60
    if minutes < 120:
        return f"{minutes} min"
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def _by_the_clock(
    time: Cells, day: Cells | None, *, today: dt.date, is_1904: bool, answers: Answers
) -> Times:
    """Readings by day and clock; where no cell names a day, by the clock alone, past midnight where it begins anew."""
    parts = [_parts(time, day, it) for it in range(len(time.texts))]
    clocks = {text: _clock(text) for text in {it[2] for it in parts}}
    if day is None and not any(it[0] and it[2] for it in parts):
        return _clock_alone(time, [clocks[it[2]] for it in parts])
    source = day or time
    cells = Cells(
        source.letter, source.rows, [it[0] for it in parts], [it[1] for it in parts]
    )
    found = read_days(
        cells, today=today, is_1904=is_1904, answers=Answers(answers.choices)
    )
    days: dict[str, int] = {}
    at: list[int | None] = []
    said: list[Said] = []
    for part, it in zip(parts, found.said, strict=True):
        clock = clocks[part[2]]
        moment, told = _moment(it, clock, days, f"{part[0]} {part[2]}".strip())
        at.append(moment)
        said.append(told)
    known = [it for it in at if it is not None]
    first = min(known) // A_DAY if known else 0
    return Times(
        [None if it is None else it - first * A_DAY for it in at],
        said,
        dt.date.fromordinal(first) if known else None,
        list(found.questions),
        list(found.answered),
        "by day and clock",
    )


Part = tuple[str, str, str]  # the day's text and kind, and the clock's text


def _parts(time: Cells, day: Cells | None, place: int) -> Part:
    text, kind = time.texts[place], time.kinds[place]
    if day is not None:
        clock = text.rpartition(" ")[2] if kind == MOMENT else text
        return day.texts[place], day.kinds[place], clock
    if not text.strip():
        return "", EMPTY, ""
    if _CLOCK.fullmatch(text.strip()):
        return "", EMPTY, text.strip()
    found, clock = parted(text)
    if kind == DAY:
        clock = "00:00"
    return found, DAY if kind == MOMENT else ("t" if kind == NUMBER else kind), clock


def _clock(text: str) -> int | None:
    """Microseconds since midnight, or since the start where it counts past a day."""
    found = _CLOCK.fullmatch(text.strip())
    if found is None:
        try:
            found = _CLOCK.fullmatch(read_time(text))
        except Refused:
            return None
    if found is None:
        return None
    second = Decimal((found["second"] or "0").replace(",", "."))
    minutes = int(found["hour"]) * 60 + int(found["minute"])
    return minutes * MINUTE + int(second * SECOND)


def _moment(
    day: Said, clock: int | None, days: dict[str, int], text: str
) -> tuple[int | None, Said]:
    if day.fate not in (Fate.TAKEN, Fate.CONVERTED):
        return None, _not_a_time(text) if day.fate == Fate.EMPTY else day
    if clock is None:
        return None, _not_a_time(text)
    if day.value not in days:
        days[day.value] = dt.date.fromisoformat(day.value).toordinal()
    return days[day.value] * A_DAY + clock, BLANK


def _clock_alone(time: Cells, clocks: Sequence[int | None]) -> Times:
    at: list[int | None] = []
    said: list[Said] = []
    added, before = 0, None
    for text, clock in zip(time.texts, clocks, strict=True):
        if clock is None:
            at.append(None)
            said.append(_not_a_time(text))
            continue
        if before is not None and before - clock > A_DAY // 2:
            added += A_DAY
        before = clock
        at.append(clock + added)
        said.append(BLANK)
    return Times(at, said, rule="by the clock, no day is told")
