"""Days and times in words, in the zone of the site, which is passed in."""

from datetime import date, datetime, tzinfo

from lims.wording.languages import Language

MONTHS: dict[Language, tuple[str, ...]] = {
    "en": (
        *("January", "February", "March", "April", "May", "June"),
        *("July", "August", "September", "October", "November", "December"),
    ),
    "de": (
        *("Januar", "Februar", "März", "April", "Mai", "Juni"),
        *("Juli", "August", "September", "Oktober", "November", "Dezember"),
    ),
}
WEEKDAYS: dict[Language, tuple[str, ...]] = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "de": ("Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"),
}
TODAY: dict[Language, str] = {"en": "today", "de": "heute"}
ZONES_IN_GERMAN = {"CET": "MEZ", "CEST": "MESZ"}


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
    """``9 March 2026``, ``Mon 9 March 2026``, ``9. März 2026``: the month is a word."""
    it = local_day(moment, zone)
    words = [f"{it.day}." if language == "de" else str(it.day)]
    words.append(MONTHS[language][it.month - 1])
    if weekday:
        words.insert(0, WEEKDAYS[language][it.weekday()])
    if year:
        words.append(str(it.year))
    return " ".join(words)


def clock(moment: datetime, zone: tzinfo, *, seconds: bool = False) -> str:
    """``09:40`` on the laboratory's clock."""
    return moment.astimezone(zone).strftime("%H:%M:%S" if seconds else "%H:%M")


def zone_name(moment: datetime, zone: tzinfo, language: Language = "en") -> str:
    """``CET`` or ``CEST``, whichever stood at that moment."""
    name = moment.astimezone(zone).tzname() or "UTC"
    if name[0] in "+-":
        return offset(moment, zone)
    return ZONES_IN_GERMAN.get(name, name) if language == "de" else name


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
        return f"{TODAY[language]} {at}"
    words = day(on, zone, language, weekday=True, year=on.year != present.year)
    return f"{words} {at}"
