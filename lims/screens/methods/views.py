"""Methods: how is it measured, how well, who checked the figures? The pages that are read."""

from typing import TypeVar

import django_tables2 as tables
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from lims.methods import queries
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.methods import measured, presenting, sheets
from lims.screens.methods.tables import CharacteristicTable, EditionTable
from lims.screens.paging import ROWS

T = TypeVar("T", bound=tables.Table)


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    rows = presenting.edition_rows()
    text = request.GET.get("q", "")
    kept = [row for row in rows if text.strip().casefold() in row.words]
    if exporting.is_asked(request):
        shown = list(exporting.rows_of(request, EditionTable(kept)))
        return exporting.answer(request, sheets.methods(shown), sheets.figures(shown))
    context = {
        "answer": presenting.answer(rows),
        "table": _paged(request, EditionTable(kept)),
        "shown_count": len(kept),
        "total": len(rows),
        "text": text,
        "may": presenting.may(person_of(request)),
    }
    return render(request, "methods/list.html", context)


@require_safe
@staff
def show_one(request: HttpRequest, pk: int) -> HttpResponse:
    method = presenting.method_or_404(pk)
    page = presenting.method_page(method, person_of(request))
    return render(request, "methods/one.html", page)


@require_safe
@staff
def show_characteristics(request: HttpRequest) -> HttpResponseBase:
    rows = queries.characteristics()
    if exporting.is_asked(request):
        shown = exporting.rows_of(request, CharacteristicTable(rows))
        return exporting.answer(request, sheets.characteristics(shown))
    context = {
        "table": _paged(request, CharacteristicTable(rows)),
        "count": rows.count(),
        "may": presenting.may(person_of(request)),
    }
    return render(request, "methods/characteristics.html", context)


@require_safe
@staff
def show_characteristic(request: HttpRequest, code: str) -> HttpResponse:
    row = presenting.characteristic_or_404(code)
    page = measured.characteristic_page(row, person_of(request))
    return render(request, "methods/characteristic.html", page)


def _paged(request: HttpRequest, table: T) -> T:
    RequestConfig(request, paginate={"per_page": ROWS, "silent": True}).configure(table)
    return table
