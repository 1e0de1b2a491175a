"""The internal copy of a certificate or of a fill lot, made when it is asked for."""

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from lims.documents.internal import (
    InternalCopy,
    copy_of_certificate,
    copy_of_lot,
    print_internal,
)
from lims.screens.access import staff
from lims.screens.batches.answers import lot_or_404, person_of
from lims.screens.certificates.presenting import revisions_or_404


@require_safe
@staff
def of_certificate(request: HttpRequest, number: str) -> HttpResponse:
    """Everything behind the latest revision of a certificate."""
    latest = revisions_or_404(number)[0]
    made = copy_of_certificate(latest, by=person_of(request))
    return _handed_out(made, f"{latest.certificate.number}-{latest.revision}")


@require_safe
@staff
def of_lot(request: HttpRequest, number: str) -> HttpResponse:
    """Everything behind the lines of a fill lot, whether or not a certificate went out."""
    lot = lot_or_404(number)
    return _handed_out(copy_of_lot(lot, by=person_of(request)), lot.number)


def _handed_out(made: InternalCopy, name: str) -> HttpResponse:
    response = HttpResponse(print_internal(made), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="internal-{name}.pdf"'
    return response
