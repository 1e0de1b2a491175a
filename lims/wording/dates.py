"""Days and times in words, in the zone of the site, which is passed in."""

from datetime import UTC, date, datetime, tzinfo

from lims.wording.catalogue.times import MONTHS, SENTENCES, WEEKDAYS
from lims.wording.languages import Language


def local_day(moment: date | datetime, zone: tzinfo) -> date:
    """The day that stood in the laboratory's calendar at that moment."""
    if isinstance(moment, datetime):
        return moment.astimezone(zone).date()
    return moment


def day(
    moment: date | datetime,
    zone: tzinfo,
    language: Language = "en",
    *,
    weekday: bool = False,
    year: bool = True,
) -> str:
    """``9 March 2026``, ``Mon 9 March 2026``, ``9. März 2026``, ``1er mars 2026``: the month is a word."""
    it = local_day(moment, zone)
    words = _say("day", language, day=_number(it, language), month=_month(it, language))
    if weekday:
        words = f"{WEEKDAYS[language][it.weekday()]} {words}"
    if year:
        words = _say("day_of_year", language, day=words, year=str(it.year))
    return words


def days(first: date, last: date, language: Language = "en") -> tuple[str, str]:
    """Two days that say what they share once: ``5`` and ``6 March 2026``."""
    closing = day(last, UTC, language)
    if (first.year, first.month) == (last.year, last.month):
        alone = _say("day_alone", language, day=_number(first, language))
        return alone, closing
    return day(first, UTC, language, year=first.year != last.year), closing


def _number(it: date, language: Language) -> str:
    return str(it.day) if it.day > 1 else SENTENCES["first_day"].into(language)


def _month(it: date, language: Language) -> str:
    return MONTHS[language][it.month - 1]


def _say(key: str, language: Language, **parts: str) -> str:
    return SENTENCES[key].into(language).format(**parts)


def clock(moment: datetime, zone: tzinfo, *, seconds: bool = False) -> str:
    """``09:40`` on the laboratory's clock."""
    return moment.astimezone(zone).strftime("%H:%M:%S" if seconds else "%H:%M")


def zone_name(moment: datetime, zone: tzinfo, language: Language = "en") -> str:
    """``CET`` or ``CEST``, whichever stood at that moment."""
    name = moment.astimezone(zone).tzname() or "UTC"
    if name[0] in "+-":
        return offset(moment, zone)
    return SENTENCES[name].into(language) if name in SENTENCES else name


def offset(moment: datetime, zone: tzinfo) -> str:
    """``UTC+1``: how far the laboratory's clock stood from universal time."""
    ahead = moment.astimezone(zone).utcoffset()
    minutes = int(ahead.total_seconds() // 60) if ahead else 0
    if not minutes:
        return "UTC"
    hours, rest = divmod(abs(minutes), 60)
    sign = "+" if minutes > 0 else "−"
    return f"UTC{sign}{hours}" + (f":{rest:02}" if rest else "")


def zone_words(moment: datetime, zone: tzinfo, language: Language = "en") -> str:
    """``CET (UTC+1)``, or the offset alone where the zone has no letters."""
    name, away = zone_name(moment, zone, language), offset(moment, zone)
    return name if name == away else f"{name} ({away})"


def day_time(
    moment: datetime,
    zone: tzinfo,
    language: Language = "en",
    *,
    seconds: bool = False,
    weekday: bool = False,
) -> str:
    """``9 March 2026, 09:40 CET``."""
    on = day(moment, zone, language, weekday=weekday)
    at = clock(moment, zone, seconds=seconds)
    return f"{on}, {at} {zone_name(moment, zone, language)}"


def near(
    moment: datetime,
    now: datetime,
    zone: tzinfo,
    language: Language = "en",
    *,
    seconds: bool = False,
) -> str:
    """A moment seen from now: ``today 20:20``, ``Sat 7 March 00:20``, the year only when it is another."""
    on, present = local_day(moment, zone), local_day(now, zone)
    at = clock(moment, zone, seconds=seconds)
    if on == present:
        return f"{_say('today', language)} {at}"
    words = day(on, zone, language, weekday=True, year=on.year != present.year)
    return f"{words} {at}"
