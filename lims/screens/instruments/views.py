"""Instruments: may I use this today? The list, one instrument, its checks, and what takes it out or puts it back."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import (
    require_http_methods,
    require_POST,
    require_safe,
)

from lims.instruments import actions, queries
from lims.instruments.models import Instrument
from lims.people.permissions import Permission
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.answering import answer
from lims.screens.batches.answers import person_of
from lims.screens.instruments import presenting, sheets
from lims.screens.instruments.forms import (
    CheckForm,
    NewForm,
    ReasonForm,
    proposed_due,
)

asked = require_http_methods(["GET", "HEAD", "POST"])


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    if exporting.is_asked(request):
        return exporting.answer(request, sheets.instruments(), sheets.checks())
    return render(request, "instruments/list.html", presenting.list_page())


@asked
@needs(Permission.KEEP_INSTRUMENTS)
def add(request: HttpRequest) -> HttpResponse:
    form = NewForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> str:
        row = actions.add_instrument(**given, by=person_of(request))
        messages.success(
            request, f"{row} is added. It is overdue until its first check is recorded."
        )
        return reverse("instruments:one", args=[row.number])

    return answer(
        request, "instruments/new.html", form, act, lambda: {"kinds": queries.kinds()}
    )


@require_safe
@staff
def show_one(request: HttpRequest, number: str) -> HttpResponseBase:
    if exporting.is_asked(request):
        row = presenting.instrument_or_404(number)
        return exporting.answer(request, sheets.checks(row))
    page = presenting.one_page(number, person_of(request))
    return render(request, "instruments/one.html", page)


@asked
@needs(Permission.CHECK_INSTRUMENTS)
def record_check(request: HttpRequest, number: str) -> HttpResponse:
    row = presenting.instrument_or_404(number)
    form = CheckForm(
        request.POST if request.method == "POST" else None,
        initial={"version": row.version, "due_on": proposed_due(row)},
    )

    def act(given: dict[str, Any]) -> str:
        actions.record_check(instrument=row, **given, by=person_of(request))
        messages.success(request, f"The check of {row} is recorded.")
        return reverse("instruments:one", args=[row.number])

    def told() -> dict[str, Any]:
        page = presenting.one_page(number, person_of(request))
        return {
            name: page[name]
            for name in ("instrument", "version", "state", "checks", "practice")
        }

    return answer(request, "instruments/check.html", form, act, told)


@require_POST
@needs(Permission.KEEP_INSTRUMENTS)
def take_out(request: HttpRequest, number: str) -> HttpResponse:
    done = "{} is out of service. It may not be used until it is put back."
    return _move(request, number, "take-out", actions.take_out_of_service, done)


@require_POST
@needs(Permission.KEEP_INSTRUMENTS)
def put_back(request: HttpRequest, number: str) -> HttpResponse:
    return _move(
        request, number, "put-back", actions.put_back, "{} is back in service."
    )


@require_POST
@needs(Permission.KEEP_INSTRUMENTS)
def retire(request: HttpRequest, number: str) -> HttpResponse:
    return _move(request, number, "retire", actions.retire, "{} is retired.")


def _move(
    request: HttpRequest,
    number: str,
    key: str,
    action: Callable[..., Instrument],
    done: str,
) -> HttpResponse:
    """Change the state with a reason; a refusal stands in the form on the page of the instrument."""
    row = presenting.instrument_or_404(number)
    form = ReasonForm(request.POST, auto_id=f"{key}-%s")

    def act(given: dict[str, Any]) -> str:
        action(instrument=row, **given, by=person_of(request))
        messages.success(request, done.format(row))
        return reverse("instruments:one", args=[row.number])

    def told() -> dict[str, Any]:
        return presenting.one_page(number, person_of(request), {key: form})

    return answer(request, "instruments/one.html", form, act, told)
