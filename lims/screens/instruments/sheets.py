"""Instruments and their checks, as rows of a sheet."""

from collections.abc import Iterator

from django.db.models import QuerySet

from lims.instruments import queries
from lims.instruments.models import Check, Instrument
from lims.people.days import today
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns, yes_no


def instruments() -> Export:
    """One instrument a row, with its state today and its latest check."""
    heads = columns(
        *("Instrument", "What it is", "State", "Why", "Next check by", "Last check"),
        *("Found", "Fit for use", "Recorded by", "Note"),
    )
    return Export("instruments", heads, _instruments())


def _instruments() -> Iterator[Row]:
    for row in queries.with_state(on=today()):
        it, check = row.instrument, row.latest
        yield [
            *(it.number, it.kind, row.state, it.state_reason, it.due_on),
            check.done_on if check else None,
            check.found if check else None,
            yes_no(is_so=check.is_fit) if check else None,
            check.recorded_by.name if check else None,
            it.note,
        ]


def checks(of: Instrument | None = None) -> Export:
    """Every check, or those of one instrument, the latest first."""
    heads = columns(
        *("Instrument", "What it is", "Day", "Found", "Fit for use"),
        *("Next check by", "Recorded", "Recorded by"),
        recorded=clock(),
    )
    rows = Check.objects.select_related("instrument", "recorded_by")
    return Export("checks", heads, _checks(rows.filter(instrument=of) if of else rows))


def _checks(rows: "QuerySet[Check]") -> Iterator[Row]:
    at = on_the_clock()
    for row in rows.iterator(chunk_size=500):
        yield [
            *(row.instrument.number, row.instrument.kind, row.done_on, row.found),
            yes_no(is_so=row.is_fit),
            row.due_on if row.is_fit else None,
            *(at(row.recorded_at), row.recorded_by.name),
        ]
