"""The record on its way out: the entries that a filter leaves, as rows of a sheet or as JSON lines, line by line."""

import json
from collections.abc import Iterator
from itertools import islice

from django.db.models import QuerySet
from django.http import HttpRequest, StreamingHttpResponse
from django.http.response import HttpResponseBase

from lims.record import queries
from lims.record.models import Entry
from lims.record.telling import Told, told
from lims.record.words import VERBS
from lims.screens import exporting
from lims.screens.zone import zone
from lims.sheets.exports import Export, Row, columns

AT_ONCE = 500
LONGEST = 32_000  # characters; a cell of a workbook holds no more than 32 767
JSON_LINES = "jsonl"


def answer(request: HttpRequest, entries: QuerySet[Entry]) -> HttpResponseBase:
    """The entries as the form that the address asks for; of JSON lines the chain can be computed."""
    if request.GET[exporting.AS] != JSON_LINES:
        return exporting.answer(request, record(entries))
    kind = "application/jsonl; charset=utf-8"
    response = StreamingHttpResponse(as_json_lines(entries), content_type=kind)
    response["Content-Disposition"] = 'attachment; filename="record.jsonl"'
    return response


def record(entries: QuerySet[Entry]) -> Export:
    """One entry a row, with its differences in words; times on the laboratory's clock."""
    heads = columns(
        *("Entry", "At", "Account", "Name", "Done", "About", "Number", "Reason"),
        *("Note", "Differences", "Head", "Head before"),
        at=exporting.clock(),
    )
    return Export("record", heads, _rows(entries))


def as_json_lines(entries: QuerySet[Entry]) -> Iterator[str]:
    """One entry a line; `content` is exactly the text that was hashed, so the chain can be computed elsewhere."""
    for entry in entries.iterator(chunk_size=AT_ONCE):
        line = {
            "seq": entry.seq,
            "previous": entry.previous,
            "content": entry.content,
            "hash": entry.hash,
        }
        yield json.dumps(line, ensure_ascii=False) + "\n"


def _rows(entries: QuerySet[Entry]) -> Iterator[Row]:
    here = zone()
    for some in _by_many(entries.iterator(chunk_size=AT_ONCE)):
        differences = told(some)
        for entry in some:
            yield (
                entry.seq,
                f"{queries.at(entry).astimezone(here):%Y-%m-%d %H:%M:%S}",
                entry.account,
                entry.printed_name,
                VERBS.get(entry.verb, entry.verb),
                entry.about_name,
                entry.about_key,
                entry.reason,
                entry.note,
                fitting("; ".join(_words(one) for one in differences[entry.seq])),
                entry.hash,
                entry.previous,
            )


def fitting(text: str) -> str:
    """The text as a cell can hold it; what is cut is told, and stands whole in the JSON lines."""
    if len(text) <= LONGEST:
        return text
    return f"{text[:LONGEST]} … {len(text)} characters in all: the rest is in the JSON lines"


def _by_many(entries: Iterator[Entry]) -> Iterator[list[Entry]]:
    while some := list(islice(entries, AT_ONCE)):
        yield some


def _words(one: Told) -> str:
    return f"{one.thing}, {one.field}: {one.before or ''} → {one.after or ''}"
