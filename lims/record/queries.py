"""Reading the record: entries about a thing, by somebody, of a day; the tail; signatures."""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

from django.db.models import Max, Q, QuerySet

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


def entries_about(
    *things: tuple[str, str], named: tuple[str, str] | None = None
) -> QuerySet[Entry]:
    """Entries about any of the things, by kind and key, oldest first.

    `named` adds the entries about parts of a thing: those of that kind whose name holds
    the text, as the tests of a sample are told under its fill lot.
    """
    wanted = Q(pk__in=[])
    for kind, key in things:
        wanted |= Q(about_kind=kind, about_key=key)
    if named:
        wanted |= Q(about_kind=named[0], about_name__contains=named[1])
    return Entry.objects.filter(wanted).order_by("seq")


def by_number(seq: int) -> Entry | None:
    """One entry by its number."""
    return Entry.objects.filter(seq=seq).first()


def authors() -> list[tuple[str, str]]:
    """Everybody who stands in the record: account and the name printed last."""
    last = Entry.objects.values("account").annotate(last=Max("seq")).values("last")
    found = Entry.objects.filter(seq__in=last).order_by("printed_name")
    return list(found.values_list("account", "printed_name"))


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
