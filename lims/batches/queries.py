"""Questions about batches, fill lots, samples and retains."""

import re

from django.db.models import Prefetch, QuerySet

from lims.batches.models import Batch, FillLot, Retain, Sample


def batches() -> QuerySet[Batch]:
    """Newest first, with their product and fill lots."""
    return Batch.objects.select_related("product").prefetch_related(
        Prefetch("fill_lots", FillLot.objects.order_by("letter"))
    )


def next_number(site: str, year: int) -> str:
    """The number that follows the highest of the year: Q1-26-0418 after Q1-26-0417."""
    start = f"{site}-{year % 100:02d}-"
    last = (
        Batch.objects.filter(number__startswith=start)
        .order_by("-number")
        .values_list("number", flat=True)
        .first()
    )
    following = int(last.rsplit("-", 1)[1]) + 1 if last else 1
    return f"{start}{following:04d}"


def lot_by_number(typed: str) -> FillLot | None:
    """A fill lot by its number as written (Q1-26-0417 A) or scanned (Q1-26-0417-A)."""
    number = re.sub(r"[\s-]+", "-", typed.strip().upper())
    return lots().filter(number=number).first()


def lots() -> QuerySet[FillLot]:
    return FillLot.objects.select_related("batch__product__sampling_plan")


def sample_by_number(typed: str) -> Sample | None:
    number = re.sub(r"[\s-]+", "-", typed.strip().upper())
    return (
        Sample.objects.select_related("batch__product", "fill_lot__batch__product")
        .filter(number=number)
        .first()
    )


def retains() -> QuerySet[Retain]:
    return Retain.objects.select_related(
        "sample__fill_lot__batch__product", "sealed_by"
    )
