"""Batches: the forms. Register a batch or a fill lot, receive a sample, note a retain, allow a lot without one."""

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from lims.batches import actions, queries, rules
from lims.batches.models import Batch, FillLot, Sample
from lims.bench.actions.samples import receive_sample
from lims.people.permissions import Permission
from lims.record.clock import now
from lims.record.refusals import Refusal
from lims.screens import zone
from lims.screens.access import needs
from lims.screens.batches import forms, presenting
from lims.screens.batches.answers import (
    batch_or_404,
    lot_or_404,
    person_of,
    sample_or_404,
    see_other,
    take_refusal,
)
from lims.screens.batches.views import may
from lims.wording.dates import local_day

AS_TYPED = "%Y-%m-%d %H:%M"
asked = require_http_methods(["GET", "HEAD", "POST"])


def _answer(
    request: HttpRequest,
    template: str,
    context: dict[str, Any],
    act: Callable[[dict[str, Any]], HttpResponse],
) -> HttpResponse:
    """Show a form, or do what was asked; a refusal stands in the form, with all that was typed."""
    form: Form = context["form"]
    if request.method != "POST":
        return render(request, template, context)
    if not form.is_valid():
        return render(request, template, context, status=422)
    try:
        return act(dict(form.cleaned_data))
    except Refusal as refusal:
        status = take_refusal(form, refusal)
        return render(request, template, context, status=status)


@asked
@needs(Permission.REGISTER_BATCHES)
def new_batch(request: HttpRequest) -> HttpResponse:
    today = local_day(now(), zone.zone())
    site = zone.site()
    proposed = queries.next_number(site.code, today.year) if site else ""
    form = forms.BatchForm(
        request.POST if request.method == "POST" else None,
        initial={"number": proposed, "charged_on": today},
    )

    def act(given: dict[str, Any]) -> HttpResponse:
        batch = actions.register_batch(**given, by=person_of(request))
        messages.success(request, f"Batch {batch} is registered.")
        return see_other(reverse("batches:batch", args=[batch.number]))

    return _answer(request, "batches/new.html", {"form": form}, act)


@asked
@needs(Permission.REGISTER_BATCHES)
def new_lot(request: HttpRequest, number: str) -> HttpResponse:
    batch = batch_or_404(number)
    form = forms.FillLotForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> HttpResponse:
        lot = actions.register_fill_lot(batch=batch, **given, by=person_of(request))
        messages.success(
            request,
            f"Fill lot {lot} is registered. It is held against the revisions in force today.",
        )
        return see_other(reverse("batches:lot", args=[lot.number]))

    context = {"form": form, "batch": batch}
    return _answer(request, "batches/new_lot.html", context, act)


@asked
@needs(Permission.TAKE_SAMPLES)
def new_sample(request: HttpRequest) -> HttpResponse:
    batch, lot = _sampled(request)
    form = _sample_form(request, lot)
    if getattr(request, "htmx", False) and request.method == "GET":
        return render(request, "batches/_counts.html", _told(form, lot))

    def act(given: dict[str, Any]) -> HttpResponse:
        sample = receive_sample(
            batch=batch, fill_lot=lot, **given, by=person_of(request)
        )
        _tell(request, sample)
        return see_other(
            reverse("batches:lot", args=[lot.number])
            if lot
            else reverse("batches:batch", args=[batch.number])
        )

    context = {"form": form, "batch": batch, "lot": lot, "may": may(request)}
    if lot is not None:
        context |= {
            "plan": lot.batch.product.sampling_plan,
            "counts_from": presenting.counts_from(lot),
        }
    return _answer(request, "batches/new_sample.html", context, act)


def _sampled(request: HttpRequest) -> tuple[Batch, FillLot | None]:
    """The fill lot or the batch that the address names."""
    if number := request.GET.get("lot"):
        lot = lot_or_404(number)
        return lot.batch, lot
    if number := request.GET.get("batch"):
        return batch_or_404(number), None
    raise Http404


def _sample_form(request: HttpRequest, lot: FillLot | None) -> forms.SampleForm:
    places = forms.places_of(lot)
    plan = lot.batch.product.sampling_plan.places if lot else []
    first = next((value for value, _ in places if value in plan), places[0][0])
    here = now().astimezone(zone.zone())
    sent = request.POST if request.method == "POST" else None
    if sent is None and "taken_at" in request.GET:
        sent = request.GET
    return forms.SampleForm(
        sent,
        lot=lot,
        initial={
            "place": first,
            "taken_at": here.strftime(AS_TYPED),
            "taken_by": person_of(request).name,
        },
    )


def _told(form: forms.SampleForm, lot: FillLot | None) -> dict[str, Any]:
    """Whether a sample like this would count, before it is received."""
    form.is_valid()
    given = form.cleaned_data
    if not given.get("place") or given.get("taken_at") is None:
        return {"unknown": True}
    return {
        "why_not": rules.why_it_does_not_count(
            lot=lot, place=given["place"], taken_at=given["taken_at"]
        )
    }


def _tell(request: HttpRequest, sample: Sample) -> None:
    count = sample.tests.count()
    tests = f"{count} test{'s' * (count != 1)}"
    if sample.counts:
        messages.success(
            request,
            f"Sample {sample} is received and counts for release. {tests} are laid out.",
        )
    elif sample.is_in_process:
        messages.success(
            request,
            f"Sample {sample} is received. It stands first on the bench, with {tests}; "
            "it never stands for a finished test.",
        )
    else:
        messages.warning(
            request,
            f"Sample {sample} is received and does not count for release. {sample.why_not}",
        )


@asked
@needs(Permission.KEEP_RETAINS)
def retain(request: HttpRequest, number: str) -> HttpResponse:
    sample = sample_or_404(number)
    form = forms.RetainForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> HttpResponse:
        kept = actions.keep_retain(sample=sample, **given, by=person_of(request))
        messages.success(request, f"The retain of {sample} stands at {kept.place}.")
        lot = sample.fill_lot
        return see_other(
            reverse("batches:lot", args=[lot.number])
            if lot
            else reverse("batches:retains")
        )

    context = {"form": form, "sample": sample}
    return _answer(request, "batches/retain.html", context, act)


@asked
@needs(Permission.ALLOW_WITHOUT_RETAIN)
def without_retain(request: HttpRequest, number: str) -> HttpResponse:
    lot = lot_or_404(number)
    form = forms.WithoutRetainForm(request.POST if request.method == "POST" else None)

    def act(given: dict[str, Any]) -> HttpResponse:
        actions.allow_without_retain(fill_lot=lot, **given, by=person_of(request))
        messages.success(request, f"{lot} may be decided on without a retain.")
        return see_other(reverse("batches:lot", args=[lot.number]))

    context = {"form": form, "lot": lot}
    return _answer(request, "batches/without_retain.html", context, act)
