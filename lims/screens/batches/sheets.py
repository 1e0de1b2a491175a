"""Batches, fill lots, samples, retains and the results of a lot, as rows of a sheet."""

from collections.abc import Iterable, Iterator
from typing import Any

from django.db.models import Prefetch, QuerySet

from lims.batches.models import Batch, FillLot, Retain, Sample
from lims.bench.models import ReportedValue, Test
from lims.bench.reporting import active_value
from lims.screens.batches.presenting import requirement_rows
from lims.screens.decisions.lines import Row as LineRow
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns, typed, yes_no


def batches(rows: Iterable[Batch]) -> Export:
    """One batch a row, as the list shows them."""
    heads = columns(
        *("Batch", "Product", "Name of the product", "Kettle", "Mass", "Charged"),
        *("Fill lots", "States of the fill lots"),
        mass="kg",
    )
    return Export("batches", heads, map(_batch, rows))


def _batch(row: Batch) -> Row:
    lots = list(row.fill_lots.all())
    return [
        *(row.number, row.product.code, row.product.name, row.kettle),
        *(typed(row.mass_kg), row.charged_on, len(lots)),
        "; ".join(f"{lot.letter} {lot.state}" for lot in lots),
    ]


def fill_lots(of: "QuerySet[Batch]") -> Export:
    """The fill lots of the batches that the list shows."""
    heads = columns(
        *("Fill lot", "Batch", "Product", "Kettle", "Pack", "Mass of a pack"),
        *("Packs", "Filled", "State", "In this state since", "Must leave", "Order"),
        mass_of_a_pack="kg",
        filled=clock(),
        in_this_state_since=clock(),
    )
    rows = FillLot.objects.filter(batch__in=_keys(of)).select_related("batch__product")
    return Export("fill-lots", heads, _fill_lots(rows))


def _fill_lots(rows: "QuerySet[FillLot]") -> Iterator[Row]:
    at = on_the_clock()
    for row in rows.iterator(chunk_size=500):
        yield [
            *(str(row), row.batch.number, row.batch.product.code, row.batch.kettle),
            *(row.pack, typed(row.pack_kg), row.pack_count, at(row.filled_at)),
            *(row.state, at(row.state_since), row.leaves_on, row.order_note),
        ]


def samples(of: "QuerySet[Batch]") -> Export:
    """The samples of the batches that the list shows, in-process ones among them."""
    heads = columns(
        *("Sample", "Batch", "Fill lot", "Product", "Taken from", "Where exactly"),
        *("Taken", "Taken by", "Counts for its lot", "Why not", "Received"),
        *("Received by", "Retain"),
        taken=clock(),
        received=clock(),
    )
    rows = Sample.objects.filter(batch__in=_keys(of)).select_related(
        "batch__product", "fill_lot", "received_by", "retain"
    )
    return Export("samples", heads, _samples(rows))


def _samples(rows: "QuerySet[Sample]") -> Iterator[Row]:
    at = on_the_clock()
    for row in rows.iterator(chunk_size=500):
        retain = getattr(row, "retain", None)
        yield [
            *(row.number, row.batch.number, str(row.fill_lot or "")),
            *(row.batch.product.code, row.place, row.detail, at(row.taken_at)),
            *(row.taken_by, yes_no(is_so=row.counts), row.why_not),
            *(at(row.received_at), row.received_by.name),
            retain.place if retain else None,
        ]


def _keys(of: "QuerySet[Batch]") -> Any:
    return of.order_by().values("pk")


def retains(rows: Iterable[Retain]) -> Export:
    """One retain a row, as the list shows them."""
    heads = columns(
        *("Place", "Sample", "Fill lot", "Product", "Sealed", "By"), sealed=clock()
    )
    return Export("retains", heads, _retains(rows))


def _retains(rows: Iterable[Retain]) -> Iterator[Row]:
    at = on_the_clock()
    for row in rows:
        lot = row.sample.fill_lot
        product = lot.batch.product.code if lot else None
        yield [
            *(row.place, row.sample.number, str(lot or ""), product),
            *(at(row.sealed_at), row.sealed_by.name),
        ]


def requirements(lot: FillLot) -> Export:
    """What a lot must meet and what was found, line by line, as its page shows it."""
    heads = columns(
        *("Line", "Characteristic", "Conditions", "Method", "Limits", "Value"),
        *("Unit", "Verdict", "Rests on", "Why"),
    )
    return Export("requirements", heads, _requirements(lot))


def _requirements(lot: FillLot) -> Iterator[Row]:
    yield from map(_requirement, requirement_rows(lot))


def _requirement(row: LineRow) -> Row:
    line = row.requirement
    return [
        *(line.line, row.name, line.characteristic.conditions),
        *(str(line.edition or ""), row.limits, typed(row.value), row.unit),
        *(row.verdict or "reported only", row.evidence, row.why),
    ]


def results(lot: FillLot) -> Export:
    """Every test of every sample of a lot, with the value reported, if one is."""
    heads = columns(
        *("Sample", "Taken from", "Counts for its lot", "Characteristic"),
        *("Conditions", "Method", "Test is", "Value", "Unit", "How", "Reported"),
        "Reported by",
        reported=clock(),
    )
    values = ReportedValue.objects.select_related("reported_by")
    tests = (
        Test.objects.filter(sample__fill_lot=lot)
        .select_related("sample", "characteristic", "edition__method")
        .prefetch_related(Prefetch("reported_values", values))
        .order_by("sample__number", "characteristic__place", "pk")
    )
    return Export("results", heads, _results(tests))


def _results(tests: "QuerySet[Test]") -> Iterator[Row]:
    at = on_the_clock()
    for test in tests:
        sample, measured, value = test.sample, test.characteristic, active_value(test)
        yield [
            *(sample.number, sample.place, yes_no(is_so=sample.counts)),
            *(measured.name, measured.conditions, str(test.edition or "")),
            *(test.state, typed(value.reported) if value else None, measured.unit),
            value.says if value else None,
            at(value.reported_at) if value else None,
            value.reported_by.name if value else None,
        ]
