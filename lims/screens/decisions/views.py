"""Decisions: the queue, the review of one fill lot, and the signature under it."""

from collections.abc import Callable, Mapping
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from lims.batches.models import FillLot
from lims.decisions import actions
from lims.decisions.models import Decision
from lims.decisions.review import Review, review_of
from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.record.refusals import ChangedSince, Refusal
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.batches.answers import (
    lot_or_404,
    person_of,
    see_other,
    take_refusal,
)
from lims.screens.decisions import panel, presenting, queue, sheets
from lims.screens.decisions.forms import SignForm

Disposition = Decision.Disposition
Act = Callable[..., Decision]
ACTS: Mapping[str, tuple[Act, str]] = {
    Disposition.RELEASE: (
        actions.release,
        "Fill lot {} is released. Its certificates may be issued.",
    ),
    Disposition.HOLD: (
        actions.hold,
        "Fill lot {} is on hold. Nothing of it may leave until a new decision.",
    ),
    Disposition.END_HOLD: (actions.end_hold, "The hold of fill lot {} is ended."),
}


@require_safe
@staff
def show_queue(request: HttpRequest) -> HttpResponseBase:
    if exporting.is_asked(request):
        lists = (sheets.waiting(request.GET), sheets.on_hold())
        return exporting.answer(request, *lists)
    return render(request, "decisions/queue.html", queue.context(request))


@require_safe
@staff
def show_lot(request: HttpRequest, number: str) -> HttpResponse:
    review = review_of(lot_or_404(number))
    context = presenting.page(review)
    by = person_of(request)
    if allowed(by, Permission.AUTHORISE_LOTS):
        context["panel"] = panel.panel_for(review, context, by)
    else:
        context["signers"] = panel.who_can_sign()
    return render(request, "decisions/lot.html", context)


@require_POST
@needs(Permission.AUTHORISE_LOTS)
def sign(request: HttpRequest, number: str) -> HttpResponse:
    lot, by = lot_or_404(number), person_of(request)
    review = review_of(lot)
    context = presenting.page(review)
    context["panel"] = panel.panel_for(review, context, by, request.POST)
    form = context["panel"].form
    if not form.is_valid():
        return render(request, "decisions/lot.html", context, status=422)
    act, told = ACTS[form.cleaned_data["disposition"]]
    try:
        act(fill_lot=lot, **_given(form), by=by)
    except ChangedSince as refusal:
        return _changed(request, lot, by, form, refusal)
    except Refusal as refusal:
        status = take_refusal(form, refusal)
        return render(request, "decisions/lot.html", context, status=status)
    messages.success(request, told.format(lot))
    return see_other(reverse("decisions:lot", args=[lot.number]))


def _given(form: SignForm) -> dict[str, Any]:
    """What the action of the chosen disposition takes."""
    given = dict(form.cleaned_data)
    disposition = given.pop("disposition")
    given.pop("stood", None)
    if disposition != Disposition.RELEASE:
        given.pop("alone_reason", None)
    return given


def _changed(
    request: HttpRequest,
    lot: FillLot,
    by: Person,
    form: SignForm,
    refusal: ChangedSince,
) -> HttpResponse:
    """The page as it stands now, what was done since it was opened, and the remark as typed."""
    review: Review = review_of(lot_or_404(lot.number))
    context = presenting.page(review)
    kept = {
        key: form.cleaned_data.get(key, "")
        for key in ("disposition", "remark", "alone_reason")
    }
    fresh = panel.panel_for(review, context, by)
    if kept["disposition"] in fresh.closed:
        del kept["disposition"]
    fresh.form.initial.update({key: text for key, text in kept.items() if text})
    context |= {
        "panel": fresh,
        "changed": refusal.sentence,
        "since": panel.entries_since(lot, form.cleaned_data.get("stood")),
    }
    return render(request, "decisions/lot.html", context, status=409)
