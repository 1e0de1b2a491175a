"""Times as they stand in a sentence, in English words whatever the machine's language."""

from datetime import datetime, timedelta

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


def moment(when: datetime) -> str:
    """A time such as "Fri 6 March 12:46:40", without seconds when they are nought."""
    seconds = f":{when.second:02}" if when.second else ""
    return (
        f"{_DAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]} "
        f"{when.hour:02}:{when.minute:02}{seconds}"
    )


def next_minute(when: datetime) -> datetime:
    """The time itself on a full minute, else the minute that follows."""
    whole = when.replace(second=0, microsecond=0)
    return whole if whole == when else whole + timedelta(minutes=1)


def duration(span: timedelta) -> str:
    """A span such as "23 h 49 min", "4 min 10 s" or "55 s", whatever its sign."""
    seconds = round(abs(span.total_seconds()))
    hours, rest = divmod(seconds, 3600)
    minutes, seconds = divmod(rest, 60)
    if hours:
        return f"{hours} h {minutes:02} min"
    words = [f"{minutes} min" if minutes else "", f"{seconds} s" if seconds else ""]
    return " ".join(word for word in words if word) or "0 s"
