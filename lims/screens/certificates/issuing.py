"""From a released lot to a paper: packs are allotted, the certificate is previewed, issued, then printed."""

import logging

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import (
    require_http_methods,
    require_POST,
    require_safe,
)

from lims.batches.models import FillLot
from lims.batches.queries import lot_by_number
from lims.certificates import actions
from lims.certificates.models import Allotment, Certificate, CertificateRevision
from lims.documents.certificate import print_preview
from lims.documents.printing import print_one
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.record.refusals import BadInput, Refusal
from lims.screens.access import needs
from lims.screens.batches.answers import (
    lot_or_404,
    person_of,
    see_other,
    take_refusal,
)
from lims.screens.certificates import leaving, presenting
from lims.screens.certificates.forms import (
    AllotForm,
    GiveBackForm,
    LotForm,
    WishesForm,
)

log = logging.getLogger(__name__)
TO_BE_PRINTED = (
    "Certificate {} is issued. Its file could not be printed just now; print it again "
    "from its page. The number stays."
)


@require_safe
@needs(Permission.ISSUE_CERTIFICATES)
def choose_lot(request: HttpRequest) -> HttpResponse:
    form = LotForm(request.GET if "lot" in request.GET else None)
    if not form.is_bound:
        return render(request, "certificates/can_leave.html", leaving.context(request))
    lot = lot_by_number(form.cleaned_data["lot"]) if form.is_valid() else None
    if lot is not None:
        return redirect("certificates:allot", number=lot.number)
    if form.is_valid():
        form.add_error("lot", "No fill lot has this number. Read it again.")
    context = leaving.context(request, form)
    return render(request, "certificates/can_leave.html", context, status=422)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Permission.ALLOT_PACKS)
def allot(request: HttpRequest, number: str) -> HttpResponse:
    lot, by = lot_or_404(number), person_of(request)
    if request.method != "POST":
        context = presenting.packs_of(lot, AllotForm())
        return render(request, "certificates/allot.html", context)
    form, status = AllotForm(request.POST), 422
    if form.is_valid():
        try:
            made = actions.allot(fill_lot=lot, **form.cleaned_data, by=by)
        except Refusal as refusal:
            status = _beside_its_box(form, lot, refusal)
        else:
            return see_other(reverse("certificates:allotment", args=[made.pk]))
    context = presenting.packs_of(lot, form)
    return render(request, "certificates/allot.html", context, status=status)


def _beside_its_box(form: AllotForm, lot: FillLot, refusal: Refusal) -> int:
    """A lot that is released and yet refused does not meet what this customer asks."""
    if isinstance(refusal, BadInput) or lot.state != FillLot.State.RELEASED:
        return take_refusal(form, refusal)
    return take_refusal(form, BadInput(refusal.sentence, field="customer"))


@require_safe
@needs(Permission.ISSUE_CERTIFICATES)
def show_allotment(request: HttpRequest, pk: int) -> HttpResponse:
    allotment = presenting.allotment_or_404(pk)
    context = presenting.allotment_page(allotment, person_of(request))
    return render(request, "certificates/allotment.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Permission.ISSUE_CERTIFICATES)
def preview(request: HttpRequest, pk: int) -> HttpResponse:
    """What would be issued, as a PDF without a number. What was typed comes by POST, so that no address holds it."""
    allotment = presenting.allotment_or_404(pk)
    given = {"language": allotment.customer.language}
    form = WishesForm(request.POST if request.method == "POST" else given)
    if not form.is_valid():
        return _again(request, allotment, form, 422)
    data = presenting.preview_data(allotment, form.wishes)
    response = HttpResponse(print_preview(data), content_type="application/pdf")
    response["Content-Disposition"] = 'inline; filename="preview.pdf"'
    return response


@require_POST
@needs(Permission.ISSUE_CERTIFICATES)
def issue(request: HttpRequest, pk: int) -> HttpResponse:
    allotment, by = presenting.allotment_or_404(pk), person_of(request)
    form = WishesForm(request.POST)
    if not form.is_valid():
        return _again(request, allotment, form, 422)
    try:
        issued = actions.issue(allotment=allotment, wishes=form.wishes, by=by)
    except Refusal as refusal:
        before = Certificate.objects.filter(allotment=allotment).first()
        if before is not None:
            return _issued_before(request, before)
        return _again(request, allotment, form, take_refusal(form, refusal))
    number = issued.certificate.number
    if is_printed(issued, by):
        messages.success(request, f"Certificate {number} is issued and printed.")
    else:
        messages.warning(request, TO_BE_PRINTED.format(number))
    return see_other(reverse("certificates:one", args=[number]))


def is_printed(issued: CertificateRevision, by: Person) -> bool:
    """Print what was issued. Whatever stops the printing, the certificate stays issued."""
    try:
        print_one(issued, by=by)
    except Exception:
        log.exception("printing %s failed", issued)
        return False
    return True


def _issued_before(request: HttpRequest, certificate: Certificate) -> HttpResponse:
    """A second press of the button: the first one counted."""
    told = (
        f"Certificate {certificate.number} was issued for these packs already; "
        "no second one was made."
    )
    messages.info(request, told)
    return see_other(reverse("certificates:one", args=[certificate.number]))


def _again(
    request: HttpRequest, allotment: Allotment, form: WishesForm, status: int
) -> HttpResponse:
    context = presenting.allotment_page(allotment, person_of(request), form=form)
    return render(request, "certificates/allotment.html", context, status=status)


@require_POST
@needs(Permission.ALLOT_PACKS)
def give_back(request: HttpRequest, pk: int) -> HttpResponse:
    allotment, by = presenting.allotment_or_404(pk), person_of(request)
    giving, status = GiveBackForm(request.POST), 422
    if giving.is_valid():
        try:
            actions.give_back(allotment=allotment, **giving.cleaned_data, by=by)
        except Refusal as refusal:
            status = take_refusal(giving, refusal)
        else:
            lot = allotment.fill_lot
            messages.success(request, f"The packs are back with fill lot {lot}.")
            return see_other(reverse("certificates:allot", args=[lot.number]))
    context = presenting.allotment_page(allotment, by, giving=giving)
    return render(request, "certificates/allotment.html", context, status=status)
