"""Files that are brought in: the list, one of them with where it stands, and the file itself."""

import django_tables2 as tables
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.imports import actions
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.imports import listing, presenting, words
from lims.screens.imports.finding import check_may_see_cells, import_or_404
from lims.screens.imports.tables import ImportTable
from lims.screens.paging import ROWS
from lims.sheets import looking


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    asked = listing.Asked.of(request.GET)
    table = ImportTable(listing.narrowed(asked))
    if exporting.is_asked(request):
        rows = exporting.rows_of(request, table)
        return exporting.answer(request, listing.sheet(rows))
    paging = {"per_page": ROWS, "silent": True}
    tables.RequestConfig(request, paginate=paging).configure(table)
    context = listing.page(asked, person_of(request)) | {"table": table}
    return render(request, "imports/list.html", context)


@require_safe
@staff
def show_one(request: HttpRequest, pk: int) -> HttpResponse:
    row = import_or_404(pk)
    context = presenting.page(row, looking.looked(row), person_of(request))
    return render(request, "imports/one.html", context)


@require_safe
@staff
def progress(request: HttpRequest, pk: int) -> HttpResponse:
    """How far the program is with a file; once it is through, the page is asked for anew."""
    row = import_or_404(pk)
    look = looking.looked(row)
    response = render(
        request, "imports/_progress.html", {"import": row, **presenting.work(look)}
    )
    if not words.is_at_work(look):
        response["HX-Refresh"] = "true"
    return response


@require_safe
@staff
def file(request: HttpRequest, pk: int) -> HttpResponse:
    """The file as it came, byte for byte."""
    row = import_or_404(pk)
    check_may_see_cells(person_of(request), row)
    content = actions.content_of(row)
    response = HttpResponse(content, content_type="application/octet-stream")
    response.headers["Content-Disposition"] = presenting.attachment(row.name)
    return response
