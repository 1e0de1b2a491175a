"""The bench list as rows of a sheet: tests that are due, and those that run."""

from collections.abc import Iterator

from lims.screens.bench.listing import Bench
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns, yes_no


def lists(bench: Bench) -> tuple[Export, Export]:
    """What waits for a person, in the order of the page, and what runs."""
    zone = clock()
    due = columns(
        *("Due", "Sample", "Product", "Batch", "Fill lot", "Place", "Detail"),
        *("Characteristic", "Waits for"),
        due=zone,
    )
    running = columns(
        *("Sample", "Product", "Characteristic", "Instruments", "Begun", "Ends"),
        *("Done", "Of", "Has ended"),
        begun=zone,
        ends=zone,
    )
    return (
        Export("tests-due", due, _due(bench)),
        Export("tests-running", running, _running(bench)),
    )


def _due(bench: Bench) -> Iterator[Row]:
    at = on_the_clock()
    for section in bench.sections:
        for row in section.rows:
            it = row.sample
            for wanted in row.wanted:
                yield [
                    *(at(wanted.due_at), it.number, it.batch.product.code),
                    it.batch.number,
                    it.fill_lot.number if it.fill_lot else None,
                    *(it.place, it.detail, wanted.test.characteristic.in_full),
                    wanted.words,
                ]


def _running(bench: Bench) -> Iterator[Row]:
    at = on_the_clock()
    for going in bench.running:
        test, run = going.test, going.run
        yield [
            *(test.sample.number, test.sample.batch.product.code),
            *(test.characteristic.in_full, going.by),
            *(at(run.run.started_at), at(run.ends_at), run.done, run.total_words),
            yes_no(is_so=run.has_ended),
        ]
