"""The record as its pages show it: days, entries with their seal, gaps, and where a thing itself stands."""

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django.core.paginator import Page
from django.db.models import QuerySet
from django.urls import reverse

from lims.certificates.models import Certificate
from lims.record import clock, queries
from lims.record.models import Entry
from lims.record.opening import SYSTEM_ACCOUNT
from lims.record.telling import told as told_of
from lims.record.words import VERBS
from lims.screens.record.forms import FilterForm
from lims.screens.record.telling import (
    MOST_ON_ITS_PAGE,
    MOST_SHOWN,
    Difference,
    brief,
    signed_as,
    signed_lines,
    whole,
)
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import counts
from specs import chain

WHERE: dict[str, str] = {
    "fill lot": "batches:lot",
    "batch": "batches:batch",
    "sample": "bench:sample",
    "certificate": "certificates:one",
    "instrument": "instruments:one",
    "person": "setup:person",
}
HAVE_TESTS = ("fill lot", "sample")
REFERENCE = "reference data"
CAME_WITH = {  # the reference data that a thing may have come with, by its kind
    "characteristic": "methods",
    "method": "methods",
    "method edition": "methods",
    "published specification": "specifications",
}


@dataclass(frozen=True)
class Line:
    """One entry."""

    entry: Entry
    at: dt.datetime
    words: str
    by: str
    differences: list[Difference]
    more: int
    meaning: str  # of the signature given in it, or nothing
    signed_version: str
    signed_lines: list[tuple[str, str]]

    @property
    def seal(self) -> tuple[str, str]:
        """How its head begins, and that of the entry before it."""
        return short(self.entry.hash), short(self.entry.previous)


@dataclass(frozen=True)
class Gap:
    """Entries that are not shown, because they are about other things."""

    count: int
    up_to: int

    @property
    def words(self) -> str:
        if self.count == 1:
            return f"1 entry about another thing, {counts(self.up_to)}"
        return f"{counts(self.count)} entries about other things, up to {counts(self.up_to)}"


@dataclass(frozen=True)
class Day:
    words: str
    items: list[Line | Gap]


def short(head: str) -> str:
    return f"{head[:4]} {head[4:8]}"


def lines(entries: Iterable[Entry]) -> list[Line]:
    """Entries with their differences in words; a fixed number of queries for a page."""
    found = list(entries)
    told = told_of(found)
    return [line_of(entry, told[entry.seq]) for entry in found]


def line_of(entry: Entry, told: Sequence[Any], *, most: int = MOST_SHOWN) -> Line:
    signature = signed_as(told)
    differences, more = brief(entry, told, most=most)
    return Line(
        entry=entry,
        at=queries.at(entry),
        words=VERBS.get(entry.verb, entry.verb.replace("_", " ")),
        by=by_words(entry, signature.get("function", "")),
        differences=differences,
        more=more,
        meaning=signature.get("meaning", ""),
        signed_version=signature.get("version", ""),
        signed_lines=signed_lines(told),
    )


def by_words(entry: Entry, function: str = "") -> str:
    if entry.account == SYSTEM_ACCOUNT:
        return f"{entry.printed_name} itself"
    return ", ".join(filter(None, (entry.printed_name, function, entry.account)))


def days(shown: Sequence[Line], *, gaps: bool = False, after: int = 0) -> list[Day]:
    """Lines by the laboratory's day; with gaps, what lies between is counted. `after` is the entry before the page."""
    found: list[Day] = []
    this_year = dates.local_day(shown[-1].at, zone()).year if shown else 0
    before = after
    for line in shown:
        on = dates.local_day(line.at, zone())
        words = dates.day(on, zone(), weekday=True, year=on.year != this_year)
        if not found or found[-1].words != words:
            found.append(Day(words, []))
        if gaps:
            found[-1].items.extend(_gap(before, line.entry.seq))
            before = line.entry.seq
        found[-1].items.append(line)
    return found


def _gap(before: int, seq: int) -> Iterator[Gap]:
    if before and seq - before > 1:
        yield Gap(seq - before - 1, seq - 1)


def about_entries(kind: str, key: str) -> QuerySet[Entry]:
    """The entries about a thing and what is its own: a lot's certificates, a sample's tests."""
    things = [(kind, key)]
    named = None
    if kind == "fill lot":
        own = Certificate.objects.filter(fill_lot__number=key)
        things += [
            ("certificate", number) for number in own.values_list("number", flat=True)
        ]
    if kind == "sample":
        named = ("fill lot", key)
    return queries.entries_about(*things, named=named)


def name_of(kind: str, key: str, entries: QuerySet[Entry]) -> str:
    """The name printed last; entries about the tests of a lot or sample bear the tests' names."""
    names = entries.filter(about_kind=kind, about_key=key).order_by("-seq")
    if kind in HAVE_TESTS:
        names = names.filter(about_name__startswith=kind)
    return names.values_list("about_name", flat=True).first() or f"{kind} {key}"


def address_of(kind: str, key: str) -> str:
    """Where the thing itself stands, if it has a page."""
    return reverse(WHERE[kind], args=[key]) if kind in WHERE else ""


def span_words(count: int, first: Entry, last: Entry) -> str:
    """How many entries, from which day to which: `14 entries, 4 to 10 March 2026.` is one."""
    start, end = (dates.local_day(queries.at(entry), zone()) for entry in (first, last))
    until = dates.day(end, zone())
    if start == end:
        when = until
    elif (start.year, start.month) == (end.year, end.month):
        when = f"{start.day} to {until}"
    else:
        when = f"{dates.day(start, zone(), year=start.year != end.year)} to {until}"
    return f"{entries_words(count)}, {when}."


def entries_words(count: int) -> str:
    return "1 entry" if count == 1 else f"{counts(count)} entries"


def narrowed(form: FilterForm) -> QuerySet[Entry]:
    """The entries that fit; a box that cannot be read narrows nothing and says so."""
    form.is_valid()
    asked = form.cleaned_data
    fits = {
        "account": asked.get("person", ""),
        "verb": asked.get("verb", ""),
        "day": asked.get("day"),
        "zone": str(zone()),
    }
    about = asked.get("about", "")
    found = queries.search(about=about, **fits)
    return found | _of_certificates(about, queries.search(**fits)) if about else found


def _of_certificates(lot: str, entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """The entries about the certificates of the fill lots whose number holds what was typed."""
    number = "-".join(lot.split())
    own = Certificate.objects.filter(fill_lot__number__icontains=number)
    return entries.filter(about_kind="certificate", about_key__in=own.values("number"))


def list_answer(page: "Page[Entry]", *, is_narrowed: bool) -> str:
    """How many entries there are, and the last of them."""
    count = page.paginator.count
    if not count:
        return "No entry fits." if is_narrowed else "Nothing is recorded yet."
    if is_narrowed:
        return f"{entries_words(count)} fit{'s' * (count == 1)}. The newest first."
    last = page.paginator.object_list[0]
    when = dates.near(queries.at(last), clock.now(), zone())
    return f"{entries_words(count)}, the last {when} by {last.printed_name}. The newest first."


def about_page(
    kind: str, key: str, entries: QuerySet[Entry], page: "Page[Entry]"
) -> dict[str, Any]:
    place = page.start_index()
    before = entries[place - 2].seq if place > 1 else 0
    count = page.paginator.count
    return {
        "kind": kind,
        "key": key,
        "name": name_of(kind, key, entries),
        "address": address_of(kind, key),
        "answer": span_words(count, entries[0], entries[count - 1]),
        "page": page,
        "days": days(lines(page.object_list), gaps=True, after=before),
    }


def entry_page(entry: Entry) -> dict[str, Any]:
    """One entry with everything it tells, and whether its head follows from its content."""
    told = told_of([entry])[entry.seq]
    return {
        "entry": entry,
        "line": line_of(entry, told, most=MOST_ON_ITS_PAGE),
        "changed": whole(told),
        "holds": follows(entry),
        "is_first": entry.seq == 1,
        "next": queries.by_number(entry.seq + 1),
        "address": address_of(entry.about_kind, entry.about_key),
    }


def follows(entry: Entry) -> bool:
    """Whether the head of an entry follows from the head before it and its text."""
    try:
        return chain.next_head(entry.previous, entry.content) == entry.hash
    except chain.ChainRefused:
        return False
