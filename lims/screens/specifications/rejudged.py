"""What would a draft have done? Every stored result of the product held against it, on screen and as a sheet."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.batches.models import FillLot
from lims.decisions.rejudging import Failure, Preview, lots_of, preview_of
from lims.products.models import Revision
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.paging import page_of
from lims.screens.specifications import revisions, words
from lims.sheets.exports import Export, Row, columns, typed
from lims.wording.numbers import counts

FEW = 4


@dataclass(frozen=True)
class LotRow:
    """A fill lot with those of its results that would not have been met."""

    lot: FillLot
    failures: list[Failure]


@require_safe
@staff
def show(request: HttpRequest, pk: int) -> HttpResponseBase:
    revision = revisions.revision_or_404(pk)
    preview = preview_of(revision)
    if exporting.is_asked(request):
        return exporting.answer(request, failures(preview))
    page = page_of(request, by_lot(preview))
    lots = lots_of([it for _, failures in page for it in failures])
    context = {
        "revision": revision,
        "is_draft": revision.state == Revision.State.DRAFT,
        "answer": answer(preview),
        "lines": [(line, words.must(line.requirement)) for line in preview.lines],
        "unknown": unknown(preview),
        "page": page,
        "rows": [LotRow(lots[key], failures) for key, failures in page],
    }
    return render(request, "specifications/preview.html", context)


def by_lot(preview: Preview) -> list[tuple[int, list[Failure]]]:
    """The results that would not have been met or judged, lot by lot, the latest lot first."""
    found: dict[int, list[Failure]] = {}
    for failure in preview.failures:
        found.setdefault(failure.lot_id, []).append(failure)
    return list(found.items())


def answer(preview: Preview) -> str:
    """How many of the stored results the revision would have failed, and how many it could not have judged."""
    product = preview.revision.specification.product
    if not preview.total:
        return (
            f"No result of {product} is stored for these lines: what this revision would "
            "have done is not known."
        )
    failed = counts(preview.not_met) if preview.not_met else "none"
    told = (
        f"This revision would have failed {failed} of {counts(preview.total)} stored "
        f"{'result' if preview.total == 1 else 'results'} of {product}"
    )
    if preview.not_met:
        told += f", on {words.number_of(preview.lot_count, 'fill lot')}"
    if preview.not_evaluated:
        told += f"; {counts(preview.not_evaluated)} could not be evaluated"
    return f"{told}."


def unknown(preview: Preview) -> str:
    """The lines of which no stored result tells anything."""
    names = [it.requirement.characteristic.in_full for it in preview.without_result]
    if not names or not preview.total:
        return ""
    if len(names) > FEW:
        return f"Not known of {len(names)} lines, for want of a stored result."
    return f"Not known, for want of a stored result: {'; '.join(names)}."


def failures(preview: Preview) -> Export:
    """The results that would not have been met or judged, one a row."""
    heads = columns(
        *("Fill lot", "Line", "Characteristic", "Must be", "Result", "Unit"),
        *("Would be", "Why"),
    )
    return Export("preview", heads, _failures(preview))


def _failures(preview: Preview) -> Iterator[Row]:
    lots = lots_of(list(preview.failures))
    for it in preview.failures:
        row = it.requirement
        yield [
            *(str(lots[it.lot_id]), row.line, row.characteristic.in_full),
            *(words.must(row), typed(it.reported), row.characteristic.unit),
            *(str(it.verdict), it.why),
        ]
