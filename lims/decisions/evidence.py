"""What has been found out about fill lots: results of the lot itself, of other lots of its batch, and of earlier batches for periodic lines. A constant number of queries, however many lots."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from lims.batches.models import Batch, FillLot
from lims.bench.models import Determination, Test
from lims.bench.reporting import active_value
from lims.products.models import Requirement

ON_LOT = "tested on this lot"
ON_BATCH = "tested on this batch"
PERIODIC = "periodic"

LOOKS_BACK = dt.timedelta(days=3 * 366)


@dataclass(frozen=True)
class Result:
    """One reported value and where it comes from."""

    test_id: int
    characteristic_id: int
    lot: FillLot
    value: str
    reported: str
    says: str
    set_aside_count: int
    determination_count: int
    first_moment: dt.datetime
    last_moment: dt.datetime


@dataclass
class Evidence:
    """Everything that verdicts on a set of lots may rest on."""

    of_lot: dict[tuple[int, int], Result] = field(default_factory=dict)
    of_batch: dict[tuple[int, int], list[Result]] = field(
        default_factory=lambda: defaultdict(list)
    )
    why_none: dict[tuple[int, int], tuple[str, bool]] = field(default_factory=dict)
    periodic: dict[tuple[int, int], list[Result]] = field(
        default_factory=lambda: defaultdict(list)
    )
    batch_order: dict[int, list[int]] = field(default_factory=dict)  # of a product

    def batches_between(self, *, earlier: Batch, later: Batch) -> int | None:
        """How many batches of the product came after one, up to and with another; None when the order is not known."""
        order = self.batch_order.get(later.product_id, [])
        if earlier.pk not in order or later.pk not in order:
            return None
        return order.index(later.pk) - order.index(earlier.pk)


def evidence_on(lots: list[FillLot], requirements: Iterable[Requirement]) -> Evidence:
    """Gather the evidence for these lots and lines."""
    found = Evidence()
    _gather_batches(found, lots)
    periodic = [r for r in requirements if r.scope == Requirement.Scope.PERIODIC]
    if periodic:
        _gather_periodic(found, lots, {r.characteristic_id for r in periodic})
    return found


def _gather_batches(found: Evidence, lots: list[FillLot]) -> None:
    for test in _tests(sample__batch__in={lot.batch_id for lot in lots}):
        lot = test.sample.fill_lot
        if lot is None:
            continue
        key = (lot.pk, test.characteristic_id)
        result = _result(test, lot)
        if result is not None:
            found.of_lot.setdefault(key, result)
            found.of_batch[lot.batch_id, test.characteristic_id].append(result)
        else:
            found.why_none.setdefault(key, _why_none(test))


def _gather_periodic(
    found: Evidence, lots: list[FillLot], characteristics: set[int]
) -> None:
    products = {lot.batch.product_id for lot in lots}
    since = min(lot.batch.charged_on for lot in lots) - LOOKS_BACK
    for pk, product in (
        Batch.objects.filter(product__in=products, charged_on__gte=since)
        .order_by("charged_on", "number")
        .values_list("pk", "product_id")
    ):
        found.batch_order.setdefault(product, []).append(pk)
    for test in _tests(
        sample__batch__product__in=products,
        sample__batch__charged_on__gte=since,
        characteristic__in=characteristics,
    ):
        lot = test.sample.fill_lot
        result = _result(test, lot) if lot else None
        if lot is not None and result is not None:
            key = (lot.batch.product_id, test.characteristic_id)
            found.periodic[key].append(result)
    for results in found.periodic.values():
        results.sort(
            key=lambda r: (r.lot.batch.charged_on, r.lot.batch.number), reverse=True
        )


def _tests(**narrowing: object) -> Iterable[Test]:
    return (
        Test.objects.filter(sample__counts=True, **narrowing)
        .select_related("characteristic", "sample__fill_lot__batch")
        .prefetch_related("reported_values", "determinations")
        .order_by("sample_id", "id")
    )


def _result(test: Test, lot: FillLot) -> Result | None:
    value = active_value(test)
    if value is None:
        return None
    sets = test.determinations.all()
    began = [d.started_at or d.begun_at for d in sets if d.state == "accepted"]
    return Result(
        test_id=test.pk,
        characteristic_id=test.characteristic_id,
        lot=lot,
        value=value.value,
        reported=value.reported,
        says=value.says,
        set_aside_count=sum(d.state == "set aside" for d in sets),
        determination_count=len(sets),
        first_moment=min(began, default=value.reported_at),
        last_moment=value.reported_at,
    )


def _why_none(test: Test) -> tuple[str, bool]:
    """Why a test has no value, and whether there are readings that cannot count (not evaluated) rather than none."""
    current = [
        d for d in test.determinations.all() if d.state != Determination.State.SET_ASIDE
    ]
    if not current:
        return "no reading yet", False
    determination = max(current, key=lambda d: d.place)
    if determination.bars:
        return str(determination.bars[0]["sentence"]), True
    if determination.is_complete and determination.asks:
        return str(determination.asks[0]), True
    if determination.ends_at is not None:
        return "running", False
    return determination.says or "no reading yet", False
