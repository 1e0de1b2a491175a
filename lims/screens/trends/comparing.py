"""Two groups of values of one characteristic beside each other: two kettles, two instruments, two periods."""

from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.people.permissions import Permission, allowed
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.trends import asking, beside, sheets
from lims.screens.trends.forms import CommonForm
from lims.screens.trends.views import characteristic_or_404, product_or_404
from lims.trends import queries

PERSONS = ("a-person", "b-person")


@require_safe
@staff
def show(request: HttpRequest, product: str, characteristic: str) -> HttpResponseBase:
    of, measured = product_or_404(product), characteristic_or_404(characteristic)
    asking.check_may_see_persons(request, *PERSONS)
    common = CommonForm(request.GET)
    sides = asking.sides(request.GET, asking.names_for(request, of.code))
    page = {
        "product": of,
        "characteristic": measured,
        "common": common,
        "sides": sides,
    }
    if not all(form.is_valid() for form in (common, *sides)):
        page["answer"] = beside.NOTHING
        return render(request, "trends/compare.html", page, status=422)
    a, b = asking.both(common, sides, of.code, measured.code)
    if not asking.is_side_asked(request.GET):
        page |= beside.offers_page(a, queries.choices(of.code))
        return render(request, "trends/compare.html", page)
    found = queries.compare(a, b)
    if exporting.is_asked(request):
        may = allowed(request.user, Permission.SEE_PERSONS)
        first = sheets.values(found.first, with_persons=may, key="first-group")
        second = sheets.values(found.second, with_persons=may, key="second-group")
        return exporting.answer(request, first, second)
    return render(request, "trends/compare.html", page | beside.page(found))
