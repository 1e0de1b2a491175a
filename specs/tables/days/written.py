"""How a text writes a day: its figures, its month's name, a count of days; which day each order of them would mean."""

import datetime as dt
import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum


class Order(StrEnum):
    """Which of the three comes first in a day of figures alone."""

    DAY_FIRST = "day first"
    MONTH_FIRST = "month first"
    YEAR_FIRST = "year first"


@dataclass(frozen=True)
class Written:
    """A day as it is written: figures in some order, or one day for certain, or a count of days.

    `figures` are those of a day of figures alone, `mark` what stands between them; `day` is
    set where the text says it for certain, `count` where it counts days; `why` where the
    text is no day.
    """

    figures: tuple[str, str, str] | None = None
    mark: str = ""
    day: dt.date | None = None
    count: int | None = None
    has_time: bool = False
    by_name: bool = False  # with a month's name and a year of two figures
    weekday: int | None = None
    matter: str = ""
    why: str = ""


LONGEST = 60
MONTHS = (
    "jan january januar jänner", "feb february februar", "mar march mär märz maerz mrz",
    "apr april", "may mai", "jun june juni", "jul july juli", "aug august",
    "sep sept september", "oct october okt oktober", "nov november",
    "dec december dez dezember",
)  # fmt: skip
_MONTH = {
    name: place for place, names in enumerate(MONTHS, 1) for name in names.split()
}
WEEKDAYS = (
    "mon monday mo montag", "tue tues tuesday di dienstag", "wed wednesday mi mittwoch",
    "thu thur thurs thursday do donnerstag", "fri friday fr freitag",
    "sat saturday sa samstag sonnabend", "sun sunday so sonntag",
)  # fmt: skip
_WEEKDAY = {
    name: place for place, names in enumerate(WEEKDAYS) for name in names.split()
}

_TIME = re.compile(
    r"(?:[T ]|, ?)\s*(?:um |at )?[0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:[.,][0-9]{1,9})?)?"
    r"\s*(?:[ap]\.?m\.?|uhr)?\s*(?:z|[+-][0-9]{2}:?[0-9]{2})?",
    re.IGNORECASE,
)
_DAY_OF_WEEK = re.compile(r"([a-zäö]+)\.?,?\s+(?:den |the )?", re.IGNORECASE)
_FIGURES = re.compile(r"([0-9]{1,4}) ?([./-]) ?([0-9]{1,2}) ?\2 ?([0-9]{1,4})")
_COUNT = re.compile(r"([0-9]{1,7})(?:[.,]([0-9]{1,12}))?")
_TOGETHER = re.compile(r"([0-9]{4})([0-9]{2})([0-9]{2})")
_PIECES = re.compile(r"[ .,/-]+")
_ORDINAL = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)")
_SIGNS = str.maketrans({"–": "-", "−": "-", "‐": "-", "‑": "-", "\t": " ", "\n": " "})


def written(text: str) -> Written:
    """What a text writes of a day; one that writes none says why."""
    plain = unicodedata.normalize("NFKC", text).translate(_SIGNS).strip().strip("'")
    if len(plain) > LONGEST or not plain.isprintable():
        return _none("is no day: write it as 2025-12-03 or 03.12.2025.")
    plain, weekday = _without_weekday(plain)
    plain, has_time = _without_time(plain)
    found = (
        _of_figures(plain) or _of_count(plain) or _of_name(plain) or _why_none(plain)
    )
    if found.why:
        return found
    return Written(
        figures=found.figures,
        mark=found.mark,
        day=found.day,
        count=found.count,
        has_time=has_time or found.has_time,
        by_name=found.by_name,
        weekday=weekday,
    )


def meant(it: Written, order: Order) -> dt.date | None:
    """The day that figures mean in one order; None where the calendar has none."""
    year, month, day = _by_order(it, order)
    return _day(year, month, day)


def can_be(it: Written, order: Order) -> bool:
    """Whether the figures fit an order at all: months to 12, days to 31, years of two or four figures."""
    if it.figures is None:
        return False
    first, _, last = it.figures
    year = first if order is Order.YEAR_FIRST else last
    if len(year) not in (2, 4) or (order is Order.YEAR_FIRST and len(last) > 2):
        return False
    if order is not Order.YEAR_FIRST and len(first) > 2:
        return False
    _, month, day = _by_order(it, order)
    return 1 <= month <= 12 and 1 <= day <= 31


def of_count(count: int, *, is_1904: bool) -> dt.date | None:
    """The day of a count of days, in one of the two ways of counting that workbooks have.

    From 1900 day 1 is 1 January 1900 and day 60 a 29 February 1900 that never was (None);
    from 1904 day 0 is 1 January 1904 (ECMA-376 part 1, 18.17.4.1). None beyond the year 9999.
    """
    if count < 0 or (not is_1904 and count in (0, 60)):
        return None
    start = dt.date(1904, 1, 1) if is_1904 else dt.date(1899, 12, 30)
    if not is_1904 and count < 60:
        start = dt.date(1899, 12, 31)
    try:
        return start + dt.timedelta(days=count)
    except OverflowError:
        return None


def in_words(day: dt.date) -> str:
    """A day for a sentence: 3 Dec 2025."""
    return f"{day.day} {MONTHS[day.month - 1].split()[0].capitalize()} {day.year}"


def _none(why: str, matter: str = "not a day") -> Written:
    return Written(matter=matter, why=why)


def _day(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None


def _by_order(it: Written, order: Order) -> tuple[int, int, int]:
    """Year, month and day of the figures in one order."""
    first, second, last = it.figures or ("0", "0", "0")
    if order is Order.YEAR_FIRST:
        return _year(first), int(second), int(last)
    if order is Order.DAY_FIRST:
        return _year(last), int(second), int(first)
    return _year(last), int(first), int(second)


def _year(figures: str) -> int:
    """A year; of two figures, from 1990 to 2089."""
    year = int(figures)
    if len(figures) > 2:
        return year
    return year + (2000 if year < 90 else 1900)


def _without_weekday(text: str) -> tuple[str, int | None]:
    found = _DAY_OF_WEEK.match(text)
    name = found[1].casefold() if found else ""
    if found is None or name not in _WEEKDAY:
        return text, None
    return text[found.end() :], _WEEKDAY[name]


def _without_time(text: str) -> tuple[str, bool]:
    for found in _TIME.finditer(text):
        if found.end() == len(text) and found.start():
            return text[: found.start()].strip(), True
    return text, False


def _of_figures(text: str) -> Written | None:
    found = _FIGURES.fullmatch(text)
    if found is None:
        return _together(text)
    first, mark, second, last = found[1], found[2], found[3], found[4]
    if len(first) == 4:
        return _certain(int(first), int(second), int(last), text)
    if len(first) == 3 or len(last) not in (2, 4):
        return _none("has no year of two or four figures: write it as 2025-12-03.")
    return Written(figures=(first, second, last), mark=mark)


def _together(text: str) -> Written | None:
    """Eight figures without a mark are year, month and day (ISO 8601, basic form)."""
    found = _TOGETHER.fullmatch(text)
    if found is None:
        return None
    return _certain(int(found[1]), int(found[2]), int(found[3]), text)


def _certain(year: int, month: int, day: int, text: str) -> Written:
    found = _day(year, month, day)
    return Written(day=found) if found else no_such_day()


def no_such_day() -> Written:
    """What is said of a day that the calendar does not have."""
    return _none(
        "is no day of the calendar: write the day that was meant, or leave the row out.",
        "no such day",
    )


def _of_count(text: str) -> Written | None:
    found = _COUNT.fullmatch(text)
    if found is None:
        return None
    return Written(count=int(found[1]), has_time=bool((found[2] or "").strip("0")))


def _of_name(text: str) -> Written | None:
    """A day with its month's name: day, name, year; name, day, year; or year, name, day."""
    pieces = [it for it in _PIECES.split(text.casefold()) if it not in ("", "of")]
    names = [place for place, it in enumerate(pieces) if it in _MONTH]
    if len(names) != 1:
        return None
    month = _MONTH[pieces.pop(names[0])]
    figures = [_ORDINAL.sub(r"\1", it) for it in pieces]
    if not all(it.isascii() and it.isdigit() and len(it) <= 4 for it in figures):
        return None
    return _named(figures, month, text)


def _named(figures: list[str], month: int, text: str) -> Written:
    if len(figures) != 2:
        return _none("names a month, not a day of a year: write it as 2025-12-03.")
    if len(figures[0]) == 4:
        figures.reverse()
    day, year = figures
    if len(day) > 2 or len(year) not in (2, 4):
        return _none("names a month, not a day of a year: write it as 2025-12-03.")
    found = _day(_year(year), month, int(day))
    return Written(day=found, by_name=len(year) == 2) if found else no_such_day()


def _why_none(text: str) -> Written:
    if re.fullmatch(r"[0-9]{1,2}[./-][0-9]{2,4}|[0-9]{4}[./-][0-9]{1,2}", text):
        return _none("says no day: write day, month and year, such as 2025-12-03.")
    if re.fullmatch(r"[0-9]{1,2}[./-][0-9]{1,2}[./-]?", text):
        return _none("says no year: write day, month and year, such as 2025-12-03.")
    return _none("is no day: write it as 2025-12-03 or 03.12.2025.")
