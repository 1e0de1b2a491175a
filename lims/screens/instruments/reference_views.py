"""Views of reference materials, their readings, and the look-back."""

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from lims.instruments import queries
from lims.instruments.actions_on_references import (
    add_reference_material,
    read_reference,
)
from lims.instruments.models import Instrument, ReferenceMaterial
from lims.instruments.reference_queries import materials_for
from lims.people.days import today
from lims.people.permissions import Permission
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.instruments import presenting, reference_pages, reference_sheets
from lims.screens.instruments.reference_forms import MaterialForm, ReadForm

asked = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
@staff
def materials(request: HttpRequest) -> HttpResponse:
    rows = ReferenceMaterial.objects.select_related("characteristic", "added_by")
    page = {"rows": rows, "on": today()}
    return render(request, "instruments/materials.html", page)


@asked
@needs(Permission.KEEP_INSTRUMENTS)
def add_material(request: HttpRequest) -> HttpResponse:
    form = MaterialForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> str:
        row = add_reference_material(**given, by=person_of(request))
        messages.success(request, f"{row} is added.")
        return reverse("instruments:materials")

    return answer(
        request,
        "instruments/material.html",
        form,
        act,
        lambda: {"kinds": queries.kinds()},
    )


@require_safe
@staff
def chart(request: HttpRequest, number: str) -> HttpResponseBase:
    row = presenting.instrument_or_404(number)
    if exporting.is_asked(request):
        return exporting.answer(request, reference_sheets.readings(row))
    page = reference_pages.chart_page(row)
    return render(request, "instruments/chart.html", page)


@asked
@needs(Permission.CHECK_INSTRUMENTS)
def read(request: HttpRequest, number: str) -> HttpResponse:
    row = presenting.instrument_or_404(number)
    material = _material(request, row)
    if material is None:
        page = {"instrument": row, "state": row.state_on(today())}
        return render(request, "instruments/no_material.html", page)
    form = ReadForm(
        request.POST if request.method == "POST" else None,
        of=row,
        material=material,
        initial={"version": row.version},
    )

    def act(given: dict[str, Any]) -> str:
        found = read_reference(
            instrument=row,
            material=material,
            readings=form.texts,
            version=given["version"],
            by=person_of(request),
        )
        messages.success(request, f"Recorded: {found.in_words}.")
        bad = row.state == Instrument.State.OUT_OF_SERVICE and not found.is_good
        return reverse(f"instruments:{'look-back' if bad else 'chart'}", args=[number])

    def told() -> dict[str, Any]:
        return {
            "instrument": row,
            "version": presenting.instrument_or_404(number).version,
            "state": row.state_on(today()),
            "material": material,
        }

    return answer(request, "instruments/read.html", form, act, told)


def _material(request: HttpRequest, row: Instrument) -> ReferenceMaterial | None:
    """The material asked for, else the first that may be read; Http404 for one that may not."""
    found = materials_for(row.kind, on=today())
    key = request.POST.get("material") or request.GET.get("material") or ""
    if not key:
        return found.first()
    named = found.filter(pk=int(key)).first() if key.isdecimal() else None
    if named is None:
        raise Http404
    return named


@require_safe
@staff
def look_back(request: HttpRequest, number: str) -> HttpResponseBase:
    row = presenting.instrument_or_404(number)
    page = reference_pages.look_back_page(row, request.GET.get("after", ""))
    if exporting.is_asked(request):
        return exporting.answer(request, reference_sheets.look_back(page["rows"]))
    return render(request, "instruments/look_back.html", page)
