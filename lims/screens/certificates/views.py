"""Certificates: the list, what can leave, one certificate, its file as issued."""

import hashlib

from django.contrib import messages
from django.core.files.storage import default_storage
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from lims.certificates.models import CertificateRevision
from lims.people.permissions import Permission
from lims.record.refusals import WrongMove
from lims.screens import exporting
from lims.screens.access import needs, staff
from lims.screens.batches.answers import person_of, see_other
from lims.screens.certificates import issuing, leaving, listing, presenting, sheets
from lims.screens.certificates.forms import FilterForm
from lims.screens.certificates.tables import CertificateTable


@require_safe
@staff
def show_list(request: HttpRequest) -> HttpResponseBase:
    if exporting.is_asked(request):
        table = CertificateTable(listing.narrowed(FilterForm(request.GET)))
        shown = sheets.certificates(exporting.rows_of(request, table))
        return exporting.answer(request, shown)
    return render(request, "certificates/list.html", listing.context(request))


@require_safe
@staff
def can_leave(request: HttpRequest) -> HttpResponseBase:
    if exporting.is_asked(request):
        return exporting.answer(request, sheets.allotments(), sheets.packs_left())
    return render(request, "certificates/can_leave.html", leaving.context(request))


@require_safe
@staff
def show_one(request: HttpRequest, number: str) -> HttpResponse:
    revisions = presenting.revisions_or_404(number)
    context = presenting.certificate_page(revisions, person_of(request))
    return render(request, "certificates/certificate.html", context)


@require_POST
@needs(Permission.ISSUE_CERTIFICATES)
def print_again(request: HttpRequest, number: str) -> HttpResponse:
    """Print a revision that was issued and has no file yet."""
    latest = presenting.revisions_or_404(number)[0]
    name = latest.certificate.number
    if issuing.is_printed(latest, person_of(request)):
        messages.success(request, f"Certificate {name} is printed.")
    else:
        messages.warning(request, issuing.TO_BE_PRINTED.format(name))
    return see_other(reverse("certificates:one", args=[name]))


@require_safe
@staff
def pdf(request: HttpRequest, number: str, revision: int) -> HttpResponse:
    """The file as it was issued, and no other."""
    issued = next(
        (it for it in presenting.revisions_or_404(number) if it.revision == revision),
        None,
    )
    if issued is None:
        raise Http404
    response = HttpResponse(_file_of(issued), content_type="application/pdf")
    name = f"{issued.certificate.number}-{revision}.pdf"
    response["Content-Disposition"] = f'inline; filename="{name}"'
    return response


def _file_of(issued: CertificateRevision) -> bytes:
    if not issued.file:
        raise WrongMove(f"{issued} is still to be printed. Print it from its page.")
    try:
        with default_storage.open(issued.file) as file:
            content: bytes = file.read()
    except FileNotFoundError:
        content = b""
    if hashlib.sha256(content).hexdigest() != issued.sha256:
        raise WrongMove(
            f"The stored file of {issued} is not the one that was issued, so it is not "
            "handed out. Tell the quality manager."
        )
    return content
