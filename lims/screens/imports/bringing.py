"""Bringing a file in: what it holds, the file; and the templates that fit without a question."""

from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from lims.imports import actions, rules
from lims.imports.models import Import
from lims.people.permissions import Permission, check
from lims.products.models import Product
from lims.record.refusals import Refusal
from lims.screens.access import staff
from lims.screens.batches.answers import person_of, see_other, take_refusal
from lims.screens.exporting import TYPES
from lims.screens.imports.forms import NewForm
from lims.screens.imports.words import BECOMES
from lims.sheets import jobs, templates


@require_http_methods(["GET", "HEAD", "POST"])
@staff
def bring_in(request: HttpRequest) -> HttpResponse:
    person = person_of(request)
    kinds = rules.kinds_for(person)
    if not kinds:
        check(person, Permission.BRING_IN)
    if request.method != "POST":
        named = request.GET.get("kind", "")
        form = NewForm(kinds, initial={"kind": named if named in kinds else ""})
        return _shown(request, form, kinds)
    form = NewForm(kinds, request.POST, request.FILES)
    status = 422
    if form.is_valid():
        try:
            return see_other(_received(form.cleaned_data, request))
        except Refusal as refusal:
            status = take_refusal(form, refusal)
    form.ask_again()
    return _shown(request, form, kinds, status)


def _received(given: dict[str, Any], request: HttpRequest) -> str:
    """Keep the file, have it looked at, and go to its page."""
    sent = given["file"]
    row = actions.receive(
        name=sent.name,
        content=sent.read(),
        kind=given["kind"],
        by=person_of(request),
    )
    jobs.look(row)
    return reverse("imports:one", args=[row.pk])


def _shown(
    request: HttpRequest, form: NewForm, kinds: list[str], status: int = 200
) -> HttpResponse:
    labels = dict(Import.Kind.choices)
    context = {
        "form": form,
        "templates": [
            (kind, labels[kind], BECOMES[Import.Kind(kind)]) for kind in kinds
        ],
        "products": Product.objects.all(),
    }
    return render(request, "imports/new.html", context, status=status)


@require_safe
@staff
def template(request: HttpRequest, kind: str) -> HttpResponse:
    """A workbook to fill in: its heads are known here, so that nothing is left to map."""
    if kind not in Import.Kind.values:
        raise Http404
    code = request.GET.get("product", "")
    product = Product.objects.filter(code=code).first() if code else None
    if code and product is None:
        raise Http404
    content = templates.template(kind, product)
    response = HttpResponse(content, content_type=TYPES["xlsx"])
    name = "-".join(filter(None, (kind, code))).replace("/", "-")
    response["Content-Disposition"] = f'attachment; filename="{name}.xlsx"'
    return response
