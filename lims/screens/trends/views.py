"""Trends: is something moving? The products, all characteristics of one, and one chart."""

from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.methods.models import Characteristic
from lims.people.permissions import Permission, allowed
from lims.products import queries as products
from lims.products.models import Product
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.trends import asking, charting, presenting, sheets
from lims.screens.trends.forms import WhereForm
from lims.trends import queries


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    rows = queries.products_with_results()
    if exporting.is_asked(request):
        return exporting.answer(request, sheets.products(rows))
    page = presenting.list_page(request, rows, person_of(request))
    return render(request, "trends/list.html", page)


@require_safe
@staff
def show_product(request: HttpRequest, product: str) -> HttpResponse:
    found = product_or_404(product)
    where = WhereForm(request.GET).chosen()
    page = presenting.product_page(found, where, person_of(request))
    return render(request, "trends/product.html", page)


@require_safe
@staff
def show_one(
    request: HttpRequest, product: str, characteristic: str
) -> HttpResponseBase:
    of, measured = product_or_404(product), characteristic_or_404(characteristic)
    asking.check_may_see_persons(request)
    form = asking.trend_form(request, of.code)
    if not form.is_valid():
        page = charting.refused_page(of, measured, form)
        return render(request, "trends/one.html", page, status=422)
    trend = queries.trend(asking.asked_of(form, of.code, measured.code))
    if exporting.is_asked(request):
        may = allowed(request.user, Permission.SEE_PERSONS)
        return exporting.answer(request, sheets.values(trend, with_persons=may))
    page = charting.page(request, of, form, trend)
    return render(request, "trends/one.html", page)


def product_or_404(code: str) -> Product:
    try:
        return products.product(code)
    except Product.DoesNotExist:
        raise Http404 from None


def characteristic_or_404(code: str) -> Characteristic:
    found = Characteristic.objects.filter(code=code).first()
    if found is None:
        raise Http404
    return found
