"""What is done with a file as a whole: looked at again, read another way, taken in, left, withdrawn."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST

from lims.imports import actions, rules
from lims.imports.models import Import
from lims.record.refusals import ChangedSince, Refusal
from lims.screens.access import staff
from lims.screens.batches.answers import person_of, see_other, take_refusal
from lims.screens.imports import presenting, words
from lims.screens.imports.finding import import_or_404
from lims.screens.imports.forms import ReadingForm, ReasonForm, VersionForm
from lims.sheets import jobs, looking

Act = Callable[[dict[str, Any]], None]


def _sent(
    request: HttpRequest, row: Import, form: Form, key: str, act: Act
) -> HttpResponse:
    """Do it and go back to the page of the file; a refusal shows that page with all that was typed."""
    status = 422
    if form.is_valid():
        try:
            act(dict(form.cleaned_data))
            return see_other(reverse("imports:one", args=[row.pk]))
        except Refusal as refusal:
            status = take_refusal(form, refusal)
    fresh = import_or_404(row.pk)
    look = looking.looked(fresh)
    context = presenting.page(fresh, look, person_of(request), {key: form})
    context |= {"faulty": form}
    return render(request, "imports/one.html", context, status=status)


def _permitted(request: HttpRequest, pk: int) -> Import:
    """The import, for who may bring in files of its kind."""
    row = import_or_404(pk)
    rules.check_may(person_of(request), row.kind)
    return row


@require_POST
@staff
def look(request: HttpRequest, pk: int) -> HttpResponse:
    """Look at the file once more: after trouble, or when products were added meanwhile."""
    row = _permitted(request, pk)
    rules.check_waits(row)
    jobs.look(row)
    return see_other(reverse("imports:one", args=[pk]))


@require_POST
@staff
def set_reading(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _permitted(request, pk), ReadingForm(request.POST)

    def act(given: dict[str, Any]) -> None:
        actions.set_reading(import_of=row, **given, by=person_of(request))
        jobs.look(row)

    return _sent(request, row, form, "reading_form", act)


@require_POST
@staff
def take(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _permitted(request, pk), VersionForm(request.POST)
    if row.state == Import.State.TAKEN_IN and row.taken_by == person_of(request):
        return see_other(reverse("imports:one", args=[pk]))  # sent twice

    def act(given: dict[str, Any]) -> None:
        rules.check_waits(row)
        if given["version"] != row.version:
            raise ChangedSince(jobs.ANSWERED_ANEW)
        jobs.take(row, by=person_of(request))
        _tell_taken(request, import_or_404(pk))

    return _sent(request, row, form, "version_form", act)


def _tell_taken(request: HttpRequest, row: Import) -> None:
    if row.state == Import.State.TAKEN_IN:
        messages.success(request, f"{row.name} is taken in. {words.added(row)}")


@require_POST
@staff
def leave(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _permitted(request, pk), ReasonForm(request.POST)

    def act(given: dict[str, Any]) -> None:
        actions.leave(import_of=row, **given, by=person_of(request))
        messages.success(request, f"{row.name} is not taken in. The file is kept.")

    return _sent(request, row, form, "reason_form", act)


@require_POST
@staff
def withdraw(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _permitted(request, pk), ReasonForm(request.POST)

    def act(given: dict[str, Any]) -> None:
        actions.withdraw(import_of=row, **given, by=person_of(request))
        messages.success(request, f"What {row.name} brought is withdrawn.")

    return _sent(request, row, form, "reason_form", act)
