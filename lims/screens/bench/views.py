"""The bench: the list, the sample, and what is sent from its boxes."""

import json
from typing import cast

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_POST

from lims.bench.actions.entering import current_determination, record_reading, set_aside
from lims.bench.actions.samples import add_test
from lims.bench.evaluation import held
from lims.bench.models import Test
from lims.imports.queries import logs_of_sample
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.record.refusals import BadInput, ChangedSince, WrongMove
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.bench import finding, presenting, saving, sheets
from lims.screens.bench.boxes import Typed
from lims.screens.bench.forms import (
    AddTestForm,
    AsideForm,
    CorrectForm,
    TimeForm,
    time_needed,
)
from lims.screens.bench.listing import bench as bench_now
from lims.screens.bench.sets import Sent, choices_of

AGAIN = "bench:again"
STAY = (
    "bench:stay"  # something is to be seen to: the walk does not go on to the next test
)
NEXT_SET = "bench:next-set"  # the boxes of the next set stand in the place of the old


def _who(request: HttpRequest) -> Person:
    return cast("Person", request.user)


@require_GET
@staff
def bench(request: HttpRequest) -> HttpResponseBase:
    found = bench_now()
    if exporting.is_asked(request):
        return exporting.answer(request, *sheets.lists(found))
    return render(request, "bench/list.html", {"bench": found})


@require_GET
@staff
def open_code(request: HttpRequest) -> HttpResponse:
    """To the sample of a code that was scanned or typed, or back with what is not known."""
    code = request.GET.get("code", "").strip()
    found = finding.by_code(code) if code else None
    fitting = [found] if found is not None else finding.open_by_figures(code)
    if len(fitting) == 1:
        return redirect("bench:sample", fitting[0].number)
    unknown = finding.not_opened(code, fitting)
    context = {"bench": bench_now(), "code": code, "unknown": unknown}
    return render(request, "bench/list.html", context, status=404)


@require_GET
@staff
def sample(request: HttpRequest, number: str) -> HttpResponse:
    found = finding.sample_or_404(number)
    page = presenting.page(found, by=_who(request))
    context = {"page": page, "logs": logs_of_sample(found)}
    return render(request, "bench/sample.html", context)


@require_POST
@needs(Permission.RECORD_READINGS)
def reading(request: HttpRequest, number: str, code: str) -> HttpResponse:
    return _box(request, finding.test_or_404(number, code), is_condition=False)


@require_POST
@needs(Permission.RECORD_READINGS)
def condition(request: HttpRequest, number: str, code: str) -> HttpResponse:
    return _box(request, finding.test_or_404(number, code), is_condition=True)


def _box(request: HttpRequest, test: Test, *, is_condition: bool) -> HttpResponse:
    """Save one box and answer with its line and everything that follows from it."""
    key = request.POST.get("box", "")
    if not saving.knows(test, key, is_condition=is_condition):
        raise Http404(f"No box {key}")
    typed = saving.save_box(test, key, request.POST, by=_who(request))
    if not getattr(request, "htmx", False):
        return _back(request, test, {key: typed} if typed else {})
    if typed is not None:
        return _refused(request, test, key, typed)
    leaves, answer = presenting.after_saving(test, by=_who(request))
    own = next(it for it in leaves if it.test.pk == test.pk)
    boxes = [*own.conditions, *own.readings]
    context = {
        "box": next(it for it in boxes if it.key == key),
        "leaf": own,
        "leaves": leaves,
        "counter": next((it for it in boxes if it.key == "counter" != key), None),
        "answer": answer,
    }
    response = render(request, "bench/_answer.html", context)
    if own.wants_next:
        response["HX-Trigger-After-Settle"] = json.dumps({NEXT_SET: own.code})
    elif own.is_to_be_seen if is_condition else own.is_at_fault:
        response["HX-Trigger"] = STAY
    return response


def _refused(request: HttpRequest, test: Test, key: str, typed: Typed) -> HttpResponse:
    box = presenting.refused_box(test, key, typed, request.POST.get("set", ""))
    response = render(request, "bench/_kept.html", {"box": box}, status=422)
    if typed.again:
        response["HX-Trigger"] = AGAIN
    return response


@require_POST
@needs(Permission.RECORD_READINGS)
def whole_set(request: HttpRequest, number: str, code: str) -> HttpResponse:
    """Every filled box of a set, in order: the way without script."""
    test = finding.test_or_404(number, code)
    return _back(request, test, saving.save_set(test, request.POST, by=_who(request)))


def _back(request: HttpRequest, test: Test, refused: dict[str, Typed]) -> HttpResponse:
    """To the page again, or the page with what was refused and everything typed."""
    code = test.characteristic.code
    if not refused:
        return to_leaf(test)
    found = finding.sample_or_404(test.sample.number)
    page = presenting.page(found, by=_who(request), refused={code: refused})
    return render(request, "bench/sample.html", {"page": page}, status=422)


@require_POST
@needs(Permission.RECORD_READINGS)
def aside(request: HttpRequest, number: str, code: str) -> HttpResponse:
    test, form = finding.test_or_404(number, code), AsideForm(request.POST)
    found = finding.named(test, request.POST.get("place", ""))
    if not form.is_valid() or found is None:
        raise WrongMove("There is no set to set aside. Open the sample again.")
    if found.state == found.State.SET_ASIDE:
        raise ChangedSince("This set was set aside since you opened the page.")
    try:
        reason = form.cleaned_data["reason"]
        set_aside(determination=found, reason=reason, by=_who(request))
    except BadInput as refusal:
        form.add_error("reason", refusal.sentence)
        return with_sent(request, test, Sent(found.place, aside=form))
    messages.success(request, f"Set {found.place} is set aside.")
    return to_leaf(test)


@require_POST
@needs(Permission.RECORD_READINGS)
def correct(request: HttpRequest, number: str, code: str, place: int) -> HttpResponse:
    """Another text for something in a set whose boxes do not stand open."""
    test = finding.test_or_404(number, code)
    found = finding.named(test, str(place))
    if found is None:
        raise Http404(f"No set {place}")
    form = CorrectForm(choices_of(test, held(found)), request.POST)
    try:
        if form.is_valid():
            saving.correct(test, found, form, by=_who(request))
    except BadInput as refusal:
        form.refuse(refusal)
    if form.errors:
        return with_sent(request, test, Sent(place, correct=form))
    messages.success(request, f"Set {place} is corrected.")
    return to_leaf(test)


def with_sent(request: HttpRequest, test: Test, sent: Sent) -> HttpResponse:
    """The page again, with what was sent about a set and refused."""
    found = finding.sample_or_404(test.sample.number)
    told = {test.characteristic.code: sent}
    page = presenting.page(found, by=_who(request), sent=told)
    return render(request, "bench/sample.html", {"page": page}, status=422)


@require_POST
@needs(Permission.RECORD_READINGS)
def time_of_reading(request: HttpRequest, number: str, code: str) -> HttpResponse:
    """Another time for a saved reading; the reading itself stays."""
    test, form = finding.test_or_404(number, code), TimeForm(request.POST)
    form.is_valid()
    slot = form.cleaned_data.get("slot", "")
    row = held(current_determination(test)).readings.get(slot)
    if row is None:
        raise Http404(f"No reading {slot}")
    try:
        record_reading(
            test=test,
            slot=slot,
            text=row.text,
            read_at=time_needed(form.cleaned_data.get("read_at", "")),
            reason=form.cleaned_data.get("reason", ""),
            again=row.text,
            by=_who(request),
        )
    except BadInput as refusal:
        return _back(request, test, {slot: Typed(row.text, refusal)})
    return to_leaf(test)


@require_POST
@needs(Permission.RECORD_READINGS)
def add(request: HttpRequest, number: str) -> HttpResponse:
    """Ask this sample for a periodic test of its lot's revision."""
    found = finding.sample_or_404(number)
    asked = finding.asked_of(found, finding.held_against(found))
    lines = finding.periodic_to_add(asked, finding.tests_of(found))
    form = AddTestForm(lines, request.POST)
    if not form.is_valid():
        raise WrongMove("This test is asked of the sample already, or is not periodic.")
    line = form.chosen
    if line.edition is None:
        raise WrongMove(
            "The line names no method edition, so it cannot be carried out."
        )
    test = add_test(
        sample=found,
        characteristic=line.characteristic,
        edition=line.edition,
        by=_who(request),
    )
    messages.success(request, f"{line.characteristic} is due on this sample.")
    return to_leaf(test)


def to_leaf(test: Test) -> HttpResponse:
    """To the page again, at the leaf of the test."""
    address = reverse("bench:sample", args=[test.sample.number])
    response = redirect(f"{address}#t-{test.characteristic.code}")
    response.status_code = 303
    return response
