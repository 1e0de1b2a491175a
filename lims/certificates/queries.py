"""Questions about certificates and the packs they are for."""

from django.db.models import QuerySet

from lims.batches.models import FillLot
from lims.certificates.models import Allotment, CertificateRevision


def issued() -> QuerySet[CertificateRevision]:
    """Every revision that went out, newest first, with what the list shows."""
    return CertificateRevision.objects.select_related(
        "certificate__customer",
        "certificate__fill_lot__batch__product",
        "certificate__allotment",
        "issued_by",
    ).order_by("-certificate__year", "-certificate__sequence", "-revision")


def by_code(code: str) -> CertificateRevision | None:
    """The revision behind a check code; the same single look-up whether it exists or not."""
    return issued().filter(code=code).first()


def not_printed() -> QuerySet[CertificateRevision]:
    return CertificateRevision.objects.filter(file="").select_related("certificate")


def can_leave() -> QuerySet[FillLot]:
    """Released lots, newest first."""
    return (
        FillLot.objects.filter(state=FillLot.State.RELEASED)
        .select_related("batch__product")
        .prefetch_related("allotments")
        .order_by("-state_since")
    )


def allotments_of(lot: FillLot) -> QuerySet[Allotment]:
    return (
        Allotment.objects.filter(fill_lot=lot)
        .select_related("customer", "allotted_by")
        .prefetch_related("certificate__revisions")
    )
