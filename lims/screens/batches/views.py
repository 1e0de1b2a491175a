"""Batches: the list, one batch, one fill lot, and the retains."""

from typing import Any

import django_tables2 as tables
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.batches import queries
from lims.imports.queries import logs_of_batch
from lims.people.permissions import Permission, allowed
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches import presenting, sheets
from lims.screens.batches.answers import batch_or_404, lot_or_404
from lims.screens.batches.forms import BatchFilter, RetainFilter
from lims.screens.batches.tables import BatchTable, RetainTable
from lims.screens.paging import ROWS


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    form = BatchFilter(request.GET)
    given = form.cleaned_data if form.is_valid() else {}
    rows = presenting.narrowed(queries.batches(), given)
    table = BatchTable(rows)
    if exporting.is_asked(request):
        shown = sheets.batches(exporting.rows_of(request, table))
        lists = (shown, sheets.fill_lots(rows), sheets.samples(rows))
        return exporting.answer(request, *lists)
    _in_pages(request, table)
    context = {
        "table": table,
        "form": form,
        "is_narrowed": any(given.values()),
        "answer": presenting.list_answer(),
        "may": may(request),
    }
    return render(request, "batches/list.html", context)


@require_safe
@staff
def show_batch(request: HttpRequest, number: str) -> HttpResponse:
    batch = batch_or_404(number)
    context = presenting.batch_page(batch)
    context |= {"logs": logs_of_batch(batch), "may": may(request)}
    return render(request, "batches/batch.html", context)


@require_safe
@staff
def show_lot(request: HttpRequest, number: str) -> HttpResponseBase:
    lot = lot_or_404(number)
    if exporting.is_asked(request):
        lists = (sheets.results(lot), sheets.requirements(lot))
        return exporting.answer(request, *lists)
    context = presenting.lot_page(lot)
    return render(request, "batches/lot.html", context | {"may": may(request)})


@require_safe
@staff
def show_retains(request: HttpRequest) -> HttpResponseBase:
    form = RetainFilter(request.GET)
    typed = form.cleaned_data["q"] if form.is_valid() else ""
    table = RetainTable(presenting.retains_found(queries.retains(), typed))
    if exporting.is_asked(request):
        shown = sheets.retains(exporting.rows_of(request, table))
        return exporting.answer(request, shown)
    _in_pages(request, table)
    total = queries.retains().count()
    context = {"table": table, "form": form, "total": total, "typed": typed}
    return render(request, "batches/retains.html", context)


def may(request: HttpRequest) -> dict[str, bool]:
    """What this person may do on these pages; what a role may not do is not shown."""
    return {
        "register": allowed(request.user, Permission.REGISTER_BATCHES),
        "sample": allowed(request.user, Permission.TAKE_SAMPLES),
        "retain": allowed(request.user, Permission.KEEP_RETAINS),
        "without_retain": allowed(request.user, Permission.ALLOW_WITHOUT_RETAIN),
        "read_at_bench": allowed(request.user, Permission.RECORD_READINGS),
    }


def _in_pages(request: HttpRequest, table: Any) -> None:
    tables.RequestConfig(
        request, paginate={"per_page": ROWS, "silent": True}
    ).configure(table)
