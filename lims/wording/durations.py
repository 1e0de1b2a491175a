"""Durations in words: ``17 h 20 min``, ``4 days 18 h``, ``in 10 min``, ``19 h late``."""

from datetime import datetime, timedelta

from lims.wording.catalogue.times import COUNTED, SENTENCES
from lims.wording.languages import Language

DAY_FROM = 48 * 60  # minutes from which days are counted
COARSE_FROM = 4 * 60  # minutes from which a waiting time is told in whole hours


def duration(length: timedelta, language: Language = "en") -> str:
    """A length of time in its two largest units; begun minutes are not counted."""
    minutes = int(abs(length).total_seconds() // 60)
    if not minutes:
        return SENTENCES["instant"].into(language)
    if minutes < DAY_FROM:
        return _pair(minutes // 60, "h", minutes % 60, "min")
    days, rest = divmod(minutes, 24 * 60)
    hours = rest // 60
    return f"{_days(days, language)} {hours} h" if hours else _days(days, language)


def waiting(length: timedelta, language: Language = "en") -> str:
    """The same in one unit from four hours on, where minutes tell nothing."""
    minutes = int(abs(length).total_seconds() // 60)
    if minutes < COARSE_FROM:
        return duration(length, language)
    if minutes < DAY_FROM:
        return f"{minutes // 60} h"
    return _days(minutes // (24 * 60), language)


def ahead(moment: datetime, now: datetime, language: Language = "en") -> str:
    """How far a due moment is away: ``in 10 min``, ``now``, ``19 h late``."""
    length = moment - now
    if abs(length) < timedelta(minutes=1):
        return SENTENCES["now"].into(language)
    words, key = waiting(length, language), "late"
    if length > timedelta(0):
        key = "ahead"
        if length >= timedelta(minutes=DAY_FROM):
            words = _days(length.days, language, "days_ahead")
    return SENTENCES[key].into(language).format(words=words)


def _days(number: int, language: Language, key: str = "days") -> str:
    return COUNTED[key].into(number, language).format(n=number)


def _pair(large: int, large_unit: str, small: int, small_unit: str) -> str:
    parts = [(large, large_unit), (small, small_unit)]
    return " ".join(f"{number} {unit}" for number, unit in parts if number)
