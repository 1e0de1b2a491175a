"""Times of day as sheets write them beside a day: "2026-03-05 07:40", "5.3.2026 7:40", "03/05/2026 7:40 pm"."""

import re

from specs.numbers import Refused

_PARTS = re.compile(
    r"(?P<day>[^\sT]+(?:\s+[^\W\d]+\.?\s+[0-9]{2,4})?)(?:[T,]?\s*)(?P<time>[0-9]{1,2}[:.h][0-9]{2}.*)"
)
_TIME = re.compile(
    r"(?P<hour>[0-9]{1,2})[:.h](?P<minute>[0-9]{2})"
    r"(?:[:.](?P<second>[0-9]{2})(?P<part>[.,][0-9]{1,9})?)?"
    r"\s*(?P<half>am|pm|a\.m\.|p\.m\.)?\s*(?:uhr|h)?(?P<zone>z|[+-][0-9]{2}:?[0-9]{2})?",
    re.IGNORECASE,
)


class MomentRefused(Refused):
    """A text that is no time of a day."""


def parted(text: str) -> tuple[str, str]:
    """Day and time of a text; without a time the second is empty."""
    tidy = " ".join(text.split())
    found = _PARTS.fullmatch(tidy)
    if found is None or _TIME.fullmatch(found["time"]) is None:
        return tidy, ""
    return found["day"].rstrip(","), found["time"]


def read_time(text: str) -> str:
    """A time of day as 07:40:00, with parts of a second where it has some.

    Raises MomentRefused, also for a time that names a zone: which clock the rest of the
    file follows would be a guess.
    """
    found = _TIME.fullmatch(text.strip())
    if found is None:
        raise MomentRefused(f"“{text}” is no time of day: write it like 07:40.")
    if found["zone"]:
        raise MomentRefused(
            f"“{text}” names a time zone: write the time as the laboratory's clock showed it."
        )
    hour, minute = int(found["hour"]), int(found["minute"])
    second = int(found["second"] or 0)
    if found["half"]:
        hour = _of_half(hour, found["half"], text)
    if hour > 23 or minute > 59 or second > 59:
        raise MomentRefused(f"“{text}” is no time of day: write it like 07:40.")
    part = (found["part"] or "").replace(",", ".").rstrip("0").rstrip(".")
    return f"{hour:02d}:{minute:02d}:{second:02d}{part}"


def _of_half(hour: int, half: str, text: str) -> int:
    if not 1 <= hour <= 12:
        raise MomentRefused(f"“{text}” is no time of day: write it like 07:40.")
    return hour % 12 + (12 if half.lower().startswith("p") else 0)
