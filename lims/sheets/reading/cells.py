"""From the values of a workbook's cells to texts and what each is: numbers plainly, days and moments as ISO 8601 writes them."""

import datetime as dt
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from lims.sheets.reading.refusing import CELL, too_long
from specs.tables.sheet import (
    DAY,
    EMPTY,
    FAULT,
    MOMENT,
    NUMBER,
    TEXT,
    YES_NO,
    Column,
    letter_of,
)

Told = tuple[str, str]  # text and kind
LONGEST_RUN = 59  # days; behind it the first epoch counts one that never was
NOTHING: Told = ("", EMPTY)


def number_text(value: float) -> str:
    """A number with the 15 figures that a sheet shows of it: 0.1 + 0.2 is 0.3."""
    text = f"{value:.15g}"
    if "e" in text:
        text = format(Decimal(text), "f")
    return "0" if text == "-0" else text


def told_of(value: Any) -> Told:
    """One value as text and kind."""
    if isinstance(value, str):
        return (value, TEXT) if value.strip() else NOTHING
    if isinstance(value, bool):
        return ("yes" if value else "no"), YES_NO
    if isinstance(value, float | int):
        text = number_text(value)
        return text, FAULT if text in ("nan", "inf", "-inf") else NUMBER
    return _told_of_time(value)


def _told_of_time(value: dt.date | dt.time | dt.timedelta) -> Told:
    if isinstance(value, dt.datetime):
        return _moment(value)
    if isinstance(value, dt.date):
        return value.isoformat(), DAY
    if isinstance(value, dt.time):
        return _clock(_seconds_of(value)), TEXT
    return _clock(value.total_seconds()), TEXT


def _moment(value: dt.datetime) -> Told:
    """To the millisecond, as a sheet counts days in a float that is no finer."""
    rounded = value + dt.timedelta(microseconds=500)
    rounded = rounded.replace(microsecond=rounded.microsecond // 1000 * 1000)
    if rounded.time() == dt.time():
        return rounded.date().isoformat(), DAY
    text = rounded.isoformat(sep=" ", timespec="milliseconds")
    return text.removesuffix(".000"), MOMENT


def hours_of(text: str, *, is_1904: bool) -> str:
    """A day or moment of which only the clock is shown, as hours since the workbook's first day: 25:10:00. Of a moment that is meant as one, the text as it is."""
    zero = dt.datetime(1904, 1, 1) if is_1904 else dt.datetime(1899, 12, 31)  # noqa: DTZ001
    span = dt.datetime.fromisoformat(text) - zero
    return _clock(span.total_seconds()) if span.days < LONGEST_RUN else text


def _seconds_of(value: dt.time) -> float:
    whole = value.hour * 3600 + value.minute * 60 + value.second
    return whole + value.microsecond / 1_000_000


def _clock(seconds: float) -> str:
    """A time of day, or a span of hours that may be more than a day."""
    thousandths = round(abs(seconds) * 1000)
    whole, rest = divmod(thousandths, 1000)
    minutes, second = divmod(whole, 60)
    hours, minute = divmod(minutes, 60)
    sign = "-" if seconds < 0 and thousandths else ""
    text = f"{sign}{hours:02}:{minute:02}:{second:02}"
    return f"{text}.{rest:03}" if rest else text


def column_of(values: Iterable[Any], letter: str) -> tuple[list[str], list[str]]:
    """Texts and kinds of one column. Equal values share one text; a value is looked up with its type, as 1, 1.0 and yes are equal."""
    seen: dict[tuple[type, Any], Told] = {}
    texts, kinds = [], []
    for row, value in enumerate(values, 1):
        key = (type(value), value)
        told = seen.get(key)
        if told is None:
            told = seen[key] = told_of(value)
            check_length(told[0], f"{letter}{row}")
        texts.append(told[0])
        kinds.append(told[1])
    return texts, kinds


def check_length(text: str, address: str) -> None:
    """Refuse a cell that holds an essay."""
    if len(text) > CELL:
        raise too_long(f"Cell {address}", len(text))


def columns_of(
    texts: Sequence[list[str]], kinds: Sequence[list[str]]
) -> tuple[Column, ...]:
    """The columns from the left to the last that says something, as high as the highest of them."""
    height = _height_of(kinds)
    columns = [
        Column(letter_of(place), some[:height], "".join(others[:height]))
        for place, (some, others) in enumerate(zip(texts, kinds, strict=True), 1)
    ]
    while columns and not columns[-1].kinds.strip(EMPTY):
        columns.pop()
    return tuple(columns)


def _height_of(columns: Sequence[Sequence[str]]) -> int:
    """Rows up to the last in which a column says something; kinds are given."""
    height = 0
    for kinds in columns:
        row = len(kinds)
        while row > height and kinds[row - 1] == EMPTY:
            row -= 1
        height = max(height, row)
    return height
