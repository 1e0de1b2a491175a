"""Reading the record: entries about a thing, by somebody, of a day; the tail; signatures."""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

from django.db.models import Q, QuerySet

from lims.record.differences import utc_text
from lims.record.models import Entry, Signature
from specs import chain


class Tail(NamedTuple):
    """The last entry's number and hash: with them, the whole record up to it is fixed."""

    seq: int
    head: str


def tail() -> Tail:
    """Where the record stands now."""
    last = Entry.objects.order_by("-seq").values_list("seq", "hash").first()
    return Tail(*last) if last else Tail(0, chain.FIRST_HEAD)


def entries(*, about: Any = None) -> QuerySet[Entry]:
    """Entries, newest first: all, or those about one thing (a row or its kind and key)."""
    found = Entry.objects.order_by("-seq")
    if about is None:
        return found
    kind, key = _kind_and_key(about)
    return found.filter(about_kind=kind, about_key=key)


def search(
    *,
    account: str = "",
    verb: str = "",
    about: str = "",
    day: date | None = None,
    zone: str = "UTC",
) -> QuerySet[Entry]:
    """Entries that fit every filter given. `about` is part of a key or name; `day` is local."""
    found = Entry.objects.order_by("-seq")
    if account:
        found = found.filter(account=account)
    if verb:
        found = found.filter(verb=verb)
    if about:
        found = found.filter(
            Q(about_key__icontains=about) | Q(about_name__icontains=about)
        )
    if day:
        start, end = (_midnight(each, zone) for each in (day, day + timedelta(days=1)))
        found = found.filter(at__gte=utc_text(start), at__lt=utc_text(end))
    return found


def signatures(*, about: Any) -> QuerySet[Signature]:
    """The signatures under one thing, oldest first."""
    kind, key = _kind_and_key(about)
    return Signature.objects.filter(about_kind=kind, about_key=key).order_by("id")


def at(entry: Entry) -> datetime:
    """The instant of an entry."""
    return datetime.fromisoformat(entry.at).astimezone(UTC)


def _midnight(day: date, zone: str) -> datetime:
    return datetime.combine(day, time(), tzinfo=ZoneInfo(zone))


def _kind_and_key(about: Any) -> tuple[str, str]:
    if isinstance(about, tuple):
        return str(about[0]), str(about[1])
    kind, key, _ = about.record_key()
    return str(kind), str(key)
