"""What awaits a decision and what is on hold, as rows of a sheet."""

from collections.abc import Iterator

from django.http import QueryDict

from lims.screens.decisions import queue
from lims.screens.exporting import clock, on_the_clock
from lims.sheets.exports import Export, Row, columns, typed


def waiting(asked: QueryDict) -> Export:
    """One fill lot a row, worst verdict first, with the line that decides."""
    heads = columns(
        *("Fill lot", "Product", "Packs", "Verdict", "What decides", "Value", "Unit"),
        *("Limits", "How it stands", "Counted", "Not for", "Waiting since"),
        *("Must leave", "Order"),
        waiting_since=clock(),
    )
    return Export("awaiting-decision", heads, _waiting(asked))


def _waiting(asked: QueryDict) -> Iterator[Row]:
    at = on_the_clock()
    for verdict, item in queue.items(asked):
        lot, row = item.lot, item.row
        line = (row.name, typed(row.value), row.unit, row.limits) if row else ("",) * 4
        yield [
            *(str(lot), lot.batch.product.code, item.packs, verdict, *line),
            *(item.beside, item.counts, ", ".join(item.not_for)),
            *(at(lot.state_since), lot.leaves_on, lot.order_note),
        ]


def on_hold() -> Export:
    """One fill lot a row, with the signature that stopped it."""
    heads = columns("Fill lot", "Product", "Why", "Signed by", "Since", since=clock())
    return Export("on-hold", heads, _on_hold())


def _on_hold() -> Iterator[Row]:
    at = on_the_clock()
    for it in queue.held():
        stopped = it.decision
        yield [
            *(str(it.lot), it.lot.batch.product.code),
            stopped.remark if stopped else None,
            stopped.decided_by.name if stopped else None,
            at(it.lot.state_since),
        ]
