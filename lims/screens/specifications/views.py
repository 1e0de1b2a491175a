"""Specifications: what must be met, since when, by which rule? The pages that are read."""

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.paging import ROWS
from lims.screens.specifications import presenting, revisions, sheets
from lims.screens.specifications.tables import CustomerTable, ProductTable


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    rows = presenting.product_rows()
    text, state = request.GET.get("q", ""), request.GET.get("state", "")
    kept = presenting.fitting(rows, text, state)
    if exporting.is_asked(request):
        shown = exporting.rows_of(request, ProductTable(kept))
        lists = (sheets.products(shown), sheets.requirements_of(kept))
        return exporting.answer(request, *lists)
    context = {
        "answer": presenting.answer(rows),
        "table": _paged(request, ProductTable(kept)),
        "customers": presenting.customer_rows(),
        "plans": presenting.plans(),
        "may": presenting.may(person_of(request)),
        "shown_count": len(kept),
        "total": len(rows),
        "filters": presenting.FILTERS,
        "text": text,
        "state": state,
    }
    return render(request, "specifications/list.html", context)


@require_safe
@staff
def show_product(request: HttpRequest, code: str) -> HttpResponseBase:
    product = presenting.product_or_404(code)
    if exporting.is_asked(request):
        return exporting.answer(request, sheets.revisions(product))
    page = presenting.product_page(product, person_of(request))
    return render(request, "specifications/product.html", page)


@require_safe
@staff
def show_customers(request: HttpRequest) -> HttpResponseBase:
    rows = presenting.customer_rows()
    if exporting.is_asked(request):
        shown = exporting.rows_of(request, CustomerTable(rows))
        return exporting.answer(request, sheets.customers(shown))
    context = {
        "table": _paged(request, CustomerTable(rows)),
        "count": len(rows),
        "may": presenting.may(person_of(request)),
    }
    return render(request, "specifications/customers.html", context)


@require_safe
@staff
def show_customer(request: HttpRequest, code: str) -> HttpResponse:
    customer = presenting.customer_or_404(code)
    page = presenting.customer_page(customer, person_of(request))
    return render(request, "specifications/customer.html", page)


@require_safe
@staff
def show_revision(request: HttpRequest, pk: int) -> HttpResponseBase:
    revision = revisions.revision_or_404(pk)
    if exporting.is_asked(request):
        return exporting.answer(request, sheets.requirements([revision]))
    page = revisions.revision_page(revision, person_of(request))
    return render(request, "specifications/revision.html", page)


def _paged(
    request: HttpRequest, table: ProductTable | CustomerTable
) -> ProductTable | CustomerTable:
    RequestConfig(request, paginate={"per_page": ROWS, "silent": True}).configure(table)
    return table
