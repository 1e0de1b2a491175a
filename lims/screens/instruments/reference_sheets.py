"""Reference readings and the look-back, as rows of a sheet."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from lims.certificates.lookback import Looked
from lims.instruments.models import Instrument
from lims.instruments.reference_queries import readings_of
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns
from specs.numbers import shortened


def readings(of: Instrument) -> Export:
    """One reading a row, with what it was judged by."""
    heads = columns(
        *("Instrument", "Material", "Read", "Readings", "Mean", "Assigned", "Bias"),
        *("Standard deviation", "It rests on", "Found", "State then", "Read by"),
        read=clock(),
    )
    return Export("reference-readings", heads, _readings(of))


def _readings(of: Instrument) -> Iterator[Row]:
    at = on_the_clock()
    for it in readings_of(of).iterator(chunk_size=500):
        yield [
            *(of.number, str(it.material), at(it.read_at), " ".join(it.texts)),
            *(Decimal(it.mean), Decimal(it.assigned), Decimal(it.bias)),
            Decimal(it.deviation) if it.deviation else None,
            *(it.deviation_basis, it.finding, it.instrument_state, it.read_by.name),
        ]


def look_back(rows: Sequence[Looked]) -> Export:
    """One result a row, in the order of the page."""
    heads = columns(
        *("Fill lot", "Sample", "Characteristic", "Reported", "Limits", "Standing"),
        *("Left to the limit", "Customers' limits in doubt", "State of the lot"),
        *("Certificates", "Retain"),
    )
    return Export("look-back", heads, _look_back(rows))


def _look_back(rows: Sequence[Looked]) -> Iterator[Row]:
    for it in rows:
        lot, room = it.test.sample.fill_lot, it.weighed.room
        yield [
            *(lot.number if lot else None, it.test.sample.number),
            *(it.test.characteristic.in_full, it.reported, it.limits),
            *(str(it.standing), Decimal(shortened(room)) if room is not None else None),
            *("; ".join(it.tighter), lot.state if lot else None),
            "; ".join(f"{paper} {paper.customer.code}" for paper in it.papers),
            "; ".join(str(retain) for retain in it.retains),
        ]
