"""Adding methods, editions and characteristics; saying who checked figures; stating an own uncertainty."""

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.methods import actions
from lims.people.days import today
from lims.people.permissions import Permission
from lims.screens.access import needs
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.methods import checking, measured, presenting
from lims.screens.methods.figure_forms import CheckForm, UncertaintyForm
from lims.screens.methods.forms import (
    CharacteristicForm,
    EditionForm,
    MethodForm,
    ProcedureForm,
)
from specs.methods.catalogue import PROCEDURES

asked = require_http_methods(["GET", "HEAD", "POST"])


def sent(request: HttpRequest) -> QueryDict | None:
    """What a form sent, or nothing where the page is only opened."""
    return request.POST if request.method == "POST" else None


@asked
@needs(Permission.KEEP_METHODS)
def add_method(request: HttpRequest) -> HttpResponse:
    def act(given: dict[str, Any]) -> str:
        row = actions.add_method(**given, by=person_of(request))
        messages.success(request, f"{row} is added. Add its edition next.")
        return reverse("methods:one", args=[row.pk])

    return answer(
        request, "methods/method_new.html", MethodForm(sent(request)), act, dict
    )


@asked
@needs(Permission.KEEP_METHODS)
def add_edition(request: HttpRequest, pk: int) -> HttpResponse:
    method = presenting.method_or_404(pk)

    def act(given: dict[str, Any]) -> str:
        row = actions.add_edition(method=method, **given, by=person_of(request))
        messages.success(request, f"{row} is added.")
        return reverse("methods:one", args=[pk])

    return answer(
        request,
        "methods/edition_new.html",
        EditionForm(sent(request)),
        act,
        lambda: {"method": method},
    )


@asked
@needs(Permission.KEEP_METHODS)
def check_figures(request: HttpRequest, pk: int) -> HttpResponse:
    edition = presenting.edition_or_404(pk)
    page = checking.page(edition)
    initial = {"on": today(), "seen": page.seen}
    form = CheckForm(page.choices, sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        checking.check_seen(page, given["seen"])
        row = actions.check_figures(
            edition=edition,
            figures=page.chosen(given["figures"], every=given["every"]),
            checked_by=given["checked_by"],
            on=given["on"],
            by=person_of(request),
        )
        count = len(row.figures)
        figures, are = ("figure", "is") if count == 1 else ("figures", "are")
        messages.success(request, f"{count} {figures} of {edition} {are} checked.")
        return reverse("methods:one", args=[edition.method_id])

    return answer(
        request,
        "methods/check.html",
        form,
        act,
        lambda: checking.told(edition, page, form),
    )


@asked
@needs(Permission.APPROVE_FIGURES)
def state_uncertainty(request: HttpRequest, code: str) -> HttpResponse:
    row, person = presenting.characteristic_or_404(code), person_of(request)
    form = UncertaintyForm(row, sent(request), name=person.name)

    def act(given: dict[str, Any]) -> str:
        stated = actions.state_own_uncertainty(characteristic=row, **given, by=person)
        messages.success(request, f"Statement {stated.number} stands.")
        return reverse("methods:characteristic", args=[code])

    return answer(
        request,
        "methods/uncertainty.html",
        form,
        act,
        lambda: measured.uncertainty_page(row, person),
    )


@asked
@needs(Permission.KEEP_METHODS)
def add_characteristic(request: HttpRequest) -> HttpResponse:
    choose = ProcedureForm(request.GET if "procedure" in request.GET else None)
    if not choose.is_valid():
        return render(request, "methods/characteristic_choose.html", {"form": choose})
    procedure = PROCEDURES[choose.cleaned_data["procedure"]]
    initial = {"unit": procedure.unit, "place": 100}
    form = CharacteristicForm(procedure, sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        row = actions.add_characteristic(**form.given, by=person_of(request))
        messages.success(request, f"“{row.in_full}” is added.")
        return reverse("methods:characteristic", args=[row.code])

    return answer(
        request,
        "methods/characteristic_new.html",
        form,
        act,
        lambda: {"procedure": procedure},
    )
