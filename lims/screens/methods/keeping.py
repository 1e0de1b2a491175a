"""Adding methods, editions and characteristics; entering, correcting and checking figures."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.methods import actions
from lims.methods.models import MethodEdition, Precision
from lims.people.days import today
from lims.people.permissions import Permission
from lims.screens.access import needs
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.methods import presenting
from lims.screens.methods.forms import (
    CharacteristicForm,
    CheckForm,
    EditionForm,
    FiguresForm,
    MethodForm,
    NewFiguresForm,
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
    initial = {"on": today(), "seen": presenting.seen_of(edition)}
    form = CheckForm(sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        presenting.check_seen(edition, given.pop("seen"))
        actions.check_figures(edition=edition, **given, by=person_of(request))
        messages.success(request, f"The figures of {edition} are checked.")
        return reverse("methods:one", args=[edition.method_id])

    return answer(request, "methods/check.html", form, act, _told(pk, form))


@asked
@needs(Permission.KEEP_METHODS)
def add_figures(request: HttpRequest, pk: int) -> HttpResponse:
    edition = presenting.edition_or_404(pk)
    initial = {"seen": presenting.seen_of(edition)}
    form = NewFiguresForm(edition, sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        presenting.check_seen(edition, given.pop("seen"))
        actions.set_precision(edition=edition, **given, by=person_of(request))
        messages.success(request, f"The figures stand. {edition} waits for a check.")
        return reverse("methods:one", args=[edition.method_id])

    return answer(request, "methods/figures_new.html", form, act, _told(pk, form))


@asked
@needs(Permission.KEEP_METHODS)
def correct_figures(request: HttpRequest, pk: int) -> HttpResponse:
    figure = presenting.figure_or_404(pk)
    edition = figure.edition
    initial = {
        name: getattr(figure, name)
        for name in ("repeatability", "reproducibility", "source", "standing")
    } | {"seen": presenting.seen_of(edition)}
    form = FiguresForm(sent(request), initial=initial)

    def act(given: dict[str, Any]) -> str:
        presenting.check_seen(edition, given.pop("seen"))
        actions.set_precision(
            edition=edition,
            characteristic=figure.characteristic,
            level_from=figure.level_from,
            level_to=figure.level_to,
            **given,
            by=person_of(request),
        )
        messages.success(request, f"The figures stand. {edition} waits for a check.")
        return reverse("methods:one", args=[edition.method_id])

    return answer(
        request, "methods/figures.html", form, act, _told(edition.pk, form, pk)
    )


def _told(
    pk: int, form: Form, figure: int | None = None
) -> Callable[[], dict[str, Any]]:
    """The edition as it stands now; a form that came too late may be sent again from there."""

    def told() -> dict[str, Any]:
        edition = presenting.edition_or_404(pk)
        now = presenting.seen_of(edition)
        late = form.is_bound and form["seen"].value() != now
        if late:
            form.data = {**form.data.dict(), "seen": now}  # type: ignore[attr-defined]
        return {
            "edition": edition,
            "figures": _figures(edition),
            "figure": presenting.figure_or_404(figure) if figure else None,
            "late": late,
        }

    return told


def _figures(edition: MethodEdition) -> list[Precision]:
    return list(edition.precisions.select_related("characteristic"))


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
