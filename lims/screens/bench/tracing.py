"""The curve of a run: its file sent, judged, and given back as it was received."""

from typing import cast

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_GET, require_POST

from lims.bench import traces
from lims.bench.actions.traces import import_trace, judge_curve
from lims.bench.evaluation import procedure_of
from lims.bench.models import Test, Trace
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.record.refusals import BadInput
from lims.screens.access import needs, staff
from lims.screens.bench import finding
from lims.screens.bench.curve_forms import CurveForm, TraceForm
from lims.screens.bench.saving import set_sent
from lims.screens.bench.sets import Sent
from lims.screens.bench.views import to_leaf, with_sent


def _who(request: HttpRequest) -> Person:
    return cast("Person", request.user)


def _test_with_curves(number: str, code: str) -> Test:
    test = finding.test_or_404(number, code)
    if not procedure_of(test.characteristic).takes_trace:
        raise Http404(f"{code} takes no curve")
    return test


@require_POST
@needs(Permission.RECORD_READINGS)
def curve_file(request: HttpRequest, number: str, code: str) -> HttpResponse:
    """The file of a curve, for the set that the page showed."""
    test = _test_with_curves(number, code)
    form = TraceForm(request.POST, request.FILES)
    if form.is_valid():
        sent = form.cleaned_data["trace"]
        try:
            kept = import_trace(
                test=test,
                name=sent.name,
                content=sent.read(),
                reason=form.cleaned_data["reason"],
                determination=set_sent(test, request.POST),
                by=_who(request),
            )
        except BadInput as refusal:
            form.refuse(refusal)
        else:
            messages.success(request, f"The curve of set {kept.place} is read in.")
            return to_leaf(test)
    return with_sent(request, test, Sent(0, trace=form))


@require_POST
@needs(Permission.RECORD_READINGS)
def judge(request: HttpRequest, number: str, code: str) -> HttpResponse:
    """Whether the curve that was seen stands."""
    test, form = _test_with_curves(number, code), CurveForm(request.POST)
    found = finding.named(test, request.POST.get("place", ""))
    if found is None:
        raise Http404("No set with such a curve")
    if form.is_valid():
        try:
            judge_curve(
                determination=found,
                answer=form.cleaned_data["answer"],
                seen=form.cleaned_data["seen"],
                reason=form.cleaned_data["reason"],
                by=_who(request),
            )
        except BadInput as refusal:
            form.refuse(refusal)
        else:
            return to_leaf(test)
    return with_sent(request, test, Sent(found.place, judged=form))


@require_GET
@staff
def as_received(
    _request: HttpRequest, number: str, code: str, key: int
) -> HttpResponse:
    """The file byte for byte as it came, also one that another has replaced."""
    test = _test_with_curves(number, code)
    row = Trace.objects.filter(pk=key, determination__test=test).first()
    if row is None:
        raise Http404("No such curve")
    response = HttpResponse(
        traces.unpacked(row), content_type="application/octet-stream"
    )
    response["Content-Disposition"] = content_disposition_header(
        as_attachment=True, filename=row.name
    )
    response["X-Content-Type-Options"] = "nosniff"
    return response
