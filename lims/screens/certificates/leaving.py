"""What can leave: released lots with packs left, packs that wait for their certificate, papers still to be printed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet
from django.http import HttpRequest

from lims.batches.models import FillLot
from lims.certificates.models import Allotment
from lims.certificates.queries import lots_with_packs_left, not_printed
from lims.people.permissions import Permission, allowed
from lims.screens.certificates.forms import LotForm
from lims.screens.certificates.words import left_words, quantity
from lims.screens.paging import page_of


@dataclass(frozen=True)
class Leaving:
    """A released lot and what is left of it."""

    lot: FillLot
    left: str


@dataclass(frozen=True)
class Waiting:
    """Allotted packs for which no certificate is issued yet."""

    allotment: Allotment
    quantity: str


def waiting_for_certificates() -> QuerySet[Allotment]:
    """Allotments without a certificate, the oldest first."""
    return (
        Allotment.objects.filter(certificate__isnull=True, is_given_back=False)
        .select_related("fill_lot__batch__product", "customer", "allotted_by")
        .order_by("allotted_at", "id")
    )


def context(request: HttpRequest, form: LotForm | None = None) -> Mapping[str, Any]:
    """Everything that the page of what can leave shows."""
    page = page_of(request, lots_with_packs_left())
    waiting = list(waiting_for_certificates()[:200])
    printing = list(not_printed())
    return {
        "form": form or LotForm(),
        "page": page,
        "lots": [_leaving(lot) for lot in page],
        "waiting": [Waiting(each, quantity(each)) for each in waiting],
        "printing": printing,
        "may_allot": allowed(request.user, Permission.ALLOT_PACKS),
        "answer": answer(page.paginator.count, len(waiting), len(printing)),
    }


def _leaving(lot: FillLot) -> Leaving:
    left: int = lot.left  # type: ignore[attr-defined]
    return Leaving(lot, left_words(lot, left))


def answer(lots: int, waiting: int, printing: int) -> str:
    """What despatch can do now."""
    if lots:
        told = f"{lots} released fill lot{'s have' if lots > 1 else ' has'} packs left."
    else:
        told = "Nothing that is released has packs left."
    if waiting:
        orders = f"{waiting} orders wait" if waiting > 1 else "1 order waits"
        told += f" {orders} for a certificate."
    if printing:
        told += f" {printing} {'papers are' if printing > 1 else 'paper is'} still to be printed."
    return told
