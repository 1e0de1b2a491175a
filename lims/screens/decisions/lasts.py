"""The dots under the rulers of a whole list: what the last released lots before each lot gave, in two queries."""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from django.db.models import F, Window
from django.db.models.functions import RowNumber

from lims.batches.models import FillLot
from lims.decisions.evidence import ON_LOT
from lims.decisions.models import Decision, FrozenVerdict

COUNT = 10
LOOKS_BACK = 200  # released lots of a product


def lasts_of(
    lots: Iterable[FillLot], characteristics: Iterable[int]
) -> dict[int, dict[int, list[str]]]:
    """By lot and characteristic, the values of up to ten released lots of the product filled before it."""
    lots = list(lots)
    if not lots:
        return {}
    earlier = {lot.pk: ids for lot, ids in _earlier(lots)}
    values = _values({pk for ids in earlier.values() for pk in ids}, characteristics)
    return {lot: _of_these(ids, values) for lot, ids in earlier.items()}


def _earlier(lots: list[FillLot]) -> list[tuple[FillLot, list[int]]]:
    released = (
        FillLot.objects.filter(
            state=FillLot.State.RELEASED,
            batch__product__in={lot.batch.product_id for lot in lots},
            filled_at__lt=max(lot.filled_at for lot in lots),
        )
        .annotate(
            back=Window(
                RowNumber(),
                partition_by=[F("batch__product")],
                order_by=[F("filled_at").desc(), F("pk").desc()],
            )
        )
        .filter(back__lte=LOOKS_BACK)
        .order_by("-filled_at", "-pk")
        .values_list("pk", "batch__product", "filled_at")
    )
    found = list(released)
    return [
        (
            lot,
            [
                pk
                for pk, product, filled_at in found
                if product == lot.batch.product_id and filled_at < lot.filled_at
            ][:COUNT],
        )
        for lot in lots
    ]


def _values(
    lots: set[int], characteristics: Iterable[int]
) -> Mapping[tuple[int, int], str]:
    frozen = (
        FrozenVerdict.objects.filter(
            decision__fill_lot__in=lots,
            decision__disposition=Decision.Disposition.RELEASE,
            requirement__characteristic__in=set(characteristics),
            evidence=ON_LOT,
        )
        .order_by("decision", "pk")
        .values_list("decision__fill_lot", "requirement__characteristic", "reported")
    )
    return {(lot, kind): reported for lot, kind, reported in frozen}


def _of_these(
    lots: list[int], values: Mapping[tuple[int, int], str]
) -> dict[int, list[str]]:
    found: dict[int, list[str]] = defaultdict(list)
    wanted = set(lots)
    for (lot, characteristic), reported in values.items():
        if lot in wanted:
            found[characteristic].append(reported)
    return dict(found)
