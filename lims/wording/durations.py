"""Durations in words: ``17 h 20 min``, ``4 days 18 h``, ``in 10 min``, ``19 h late``."""

from datetime import datetime, timedelta

from lims.wording.languages import Language

DAY_FROM = 48 * 60  # minutes from which days are counted
COARSE_FROM = 4 * 60  # minutes from which a waiting time is told in whole hours
DAYS: dict[Language, tuple[str, str]] = {"en": ("day", "days"), "de": ("Tag", "Tage")}
IN_DAYS: dict[Language, str] = {"en": "days", "de": "Tagen"}
INSTANT: dict[Language, str] = {"en": "less than 1 min", "de": "weniger als 1 min"}
NOW: dict[Language, str] = {"en": "now", "de": "jetzt"}


def duration(length: timedelta, language: Language = "en") -> str:
    """A length of time in its two largest units; begun minutes are not counted."""
    minutes = int(abs(length).total_seconds() // 60)
    if not minutes:
        return INSTANT[language]
    if minutes < DAY_FROM:
        return _pair(minutes // 60, "h", minutes % 60, "min")
    days, rest = divmod(minutes, 24 * 60)
    return _pair(days, _days(days, language), rest // 60, "h")


def waiting(length: timedelta, language: Language = "en") -> str:
    """The same in one unit from four hours on, where minutes tell nothing."""
    minutes = int(abs(length).total_seconds() // 60)
    if minutes < COARSE_FROM:
        return duration(length, language)
    if minutes < DAY_FROM:
        return f"{minutes // 60} h"
    days = minutes // (24 * 60)
    return f"{days} {_days(days, language)}"


def ahead(moment: datetime, now: datetime, language: Language = "en") -> str:
    """How far a due moment is away: ``in 10 min``, ``now``, ``19 h late``."""
    length = moment - now
    if abs(length) < timedelta(minutes=1):
        return NOW[language]
    words = waiting(length, language)
    if length > timedelta(0):
        return f"in {words}".replace(DAYS[language][1], IN_DAYS[language])
    return f"{words} zu spät" if language == "de" else f"{words} late"


def _days(number: int, language: Language) -> str:
    one, many = DAYS[language]
    return one if number == 1 else many


def _pair(large: int, large_unit: str, small: int, small_unit: str) -> str:
    parts = [(large, large_unit), (small, small_unit)]
    return " ".join(f"{number} {unit}" for number, unit in parts if number)
