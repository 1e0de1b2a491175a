"""What has been found out about fill lots: results of the lot itself, of other lots of its batch, and of earlier batches for periodic lines. A constant number of queries, however many lots."""

import datetime as dt
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import QuerySet

from lims.batches.models import Batch, FillLot
from lims.bench.models import Determination, ReportedValue, Test
from lims.decisions.beginnings import first_moments
from lims.products.models import Requirement

ON_LOT = "tested on this lot"
ON_BATCH = "tested on this batch"
PERIODIC = "periodic"

SET_ASIDE = Determination.State.SET_ASIDE
BATCH = "sample__batch"
LOOKS_BACK = dt.timedelta(days=3 * 366)

Told = Mapping[str, Any]  # a figure of the method book, as the bench stored it


@dataclass(frozen=True)
class SetAside:
    """A determination that the value does not rest on."""

    place: int
    reason: str
    by_rule: bool  # the repeat rule found it too far off: its cause is to be looked for


@dataclass(frozen=True)
class Result:
    """One reported value and where it comes from."""

    test_id: int
    characteristic_id: int
    lot: FillLot
    value: str
    reported: str
    says: str
    set_aside: tuple[SetAside, ...]
    determination_count: int
    first_moment: dt.datetime
    last_moment: dt.datetime
    rule: str = ""  # by which the value was reported
    constants: str = ""  # exact or printed
    figures: tuple[Told, ...] = ()  # of the method, that decided
    sources: tuple[int, ...] = ()  # determinations, or of a derived value values

    @property
    def set_aside_count(self) -> int:
        return len(self.set_aside)


@dataclass
class Evidence:
    """Everything that verdicts on a set of lots may rest on."""

    of_lot: dict[tuple[int, int], list[Result]] = field(
        default_factory=lambda: defaultdict(list)
    )
    of_batch: dict[tuple[int, int], list[Result]] = field(
        default_factory=lambda: defaultdict(list)
    )
    why_none: dict[tuple[int, int], tuple[str, bool]] = field(default_factory=dict)
    periodic: dict[tuple[int, int], list[Result]] = field(
        default_factory=lambda: defaultdict(list)
    )
    batch_place: dict[int, int] = field(default_factory=dict)  # among its product's
    on: dt.date | None = (
        None  # the day that periodic results are to be valid on, if not today
    )

    def batches_between(self, *, earlier: Batch, later: Batch) -> int | None:
        """How many batches of the product came after one, up to and with another; None when the order is not known."""
        first, last = (self.batch_place.get(batch.pk) for batch in (earlier, later))
        return None if first is None or last is None else last - first


def evidence_on(lots: list[FillLot], requirements: Iterable[Requirement]) -> Evidence:
    """Gather the evidence for these lots and lines."""
    found = Evidence()
    _gather_batches(found, lots)
    periodic = [r for r in requirements if r.scope == Requirement.Scope.PERIODIC]
    if periodic:
        _gather_periodic(found, lots, {r.characteristic_id for r in periodic})
    return found


def _gather_batches(found: Evidence, lots: list[FillLot]) -> None:
    for test in _known(
        Test.objects.filter(sample__batch__in={x.batch_id for x in lots})
    ):
        key = (test.lot.pk, test.characteristic_id)
        result = test.result
        if result is not None:
            found.of_lot[key].append(result)
            batch_key = (test.lot.batch_id, test.characteristic_id)
            found.of_batch[batch_key].append(result)
        else:
            found.why_none.setdefault(key, test.why_none)


def _gather_periodic(
    found: Evidence, lots: list[FillLot], characteristics: set[int]
) -> None:
    """The newest result before each lot, and the order of the batches from there to the lots."""
    batches = {lot.batch_id: lot.batch for lot in lots}
    wanted = _newest_before(batches.values(), characteristics)
    for test in _known(Test.objects.filter(pk__in=wanted)) if wanted else ():
        result, batch = test.result, test.lot.batch
        if result is not None:
            batches[batch.pk] = batch
            found.periodic[batch.product_id, test.characteristic_id].append(result)
    for results in found.periodic.values():
        results.sort(key=lambda r: _standing(r.lot.batch), reverse=True)
    if wanted:
        _note_order(found, batches.values())


def _newest_before(batches: Collection[Batch], characteristics: set[int]) -> set[int]:
    """The tests with the newest reported value of an earlier batch, for each batch and characteristic."""
    earlier: dict[tuple[int, int], list[tuple[tuple[dt.date, str], int]]] = {}
    for product, characteristic, charged_on, number, pk in (
        Test.objects.filter(
            sample__counts=True,
            state__in=(Test.State.REPORTED, Test.State.AUTHORISED),
            characteristic__in=characteristics,
            sample__batch__product__in={batch.product_id for batch in batches},
            sample__batch__charged_on__gte=(
                _before(min(batch.charged_on for batch in batches))
            ),
        )
        .order_by(f"-{BATCH}__charged_on", f"-{BATCH}__number", "sample_id", "id")
        .values_list(
            f"{BATCH}__product",
            "characteristic",
            f"{BATCH}__charged_on",
            f"{BATCH}__number",
            "pk",
        )
    ):
        known = earlier.setdefault((product, characteristic), [])
        known.append(((charged_on, number), pk))
    firsts = (
        next((pk for at, pk in known if at < _standing(batch)), None)
        for batch in batches
        for (product, _), known in earlier.items()
        if product == batch.product_id
    )
    return {pk for pk in firsts if pk is not None}


def _before(day: dt.date) -> dt.date:
    """So long before a day; the calendar's first day when there is none."""
    return day - LOOKS_BACK if day - dt.date.min > LOOKS_BACK else dt.date.min


def _standing(batch: Batch) -> tuple[dt.date, str]:
    """Where a batch stands in the order of its product."""
    return batch.charged_on, batch.number


def _note_order(found: Evidence, batches: Collection[Batch]) -> None:
    days = [batch.charged_on for batch in batches]
    counts: dict[int, int] = defaultdict(int)
    for pk, product in (
        Batch.objects.filter(
            product__in={batch.product_id for batch in batches},
            charged_on__range=(min(days), max(days)),
        )
        .order_by("charged_on", "number")
        .values_list("pk", "product_id")
    ):
        found.batch_place[pk] = counts[product]
        counts[product] += 1


@dataclass(frozen=True)
class Known:
    """One test of a counting sample with what was found out."""

    pk: int
    characteristic_id: int
    lot: FillLot
    value: ReportedValue | None  # the newest
    sets: list[Determination]  # in their order
    asks: str  # what the edition asks further before there is a value
    began: dt.datetime | None  # the first start or reading behind the value

    @property
    def result(self) -> Result | None:
        value = self.value
        if value is None or value.is_withdrawn:
            return None
        return Result(
            test_id=self.pk,
            characteristic_id=self.characteristic_id,
            lot=self.lot,
            value=value.value,
            reported=value.reported,
            says=value.says,
            set_aside=tuple(
                SetAside(d.place, d.reason, d.by_rule)
                for d in self.sets
                if d.state == SET_ASIDE
            ),
            determination_count=len(self.sets),
            first_moment=self.began or value.reported_at,
            last_moment=value.reported_at,
            rule=value.rule,
            constants=value.constants,
            figures=tuple(value.figures),
            sources=tuple(value.sources),
        )

    @property
    def why_none(self) -> tuple[str, bool]:
        """Why a test has no value, and whether there are readings that cannot count (not evaluated) rather than none."""
        if self.asks:
            return self.asks, True
        current = [d for d in self.sets if d.state != SET_ASIDE]
        if not current:
            return "no reading yet", False
        determination = current[-1]
        if determination.bars:
            return str(determination.bars[0]["sentence"]), True
        if determination.is_complete and determination.asks:
            return str(determination.asks[0]), True
        if determination.ends_at is not None:
            return "running", False
        return determination.says or "no reading yet", False


def _known(tests: QuerySet[Test]) -> Iterator[Known]:
    """Each table is read once and put together here: with hundreds of tests that is several times quicker than a join or a prefetch."""
    rows = list(
        tests.filter(sample__counts=True)
        .order_by("sample_id", "id")
        .values_list(
            "pk",
            "characteristic_id",
            "sample__fill_lot_id",
            "characteristic__derived_from",
            "asks",
        )
    )
    keys = [pk for pk, *_ in rows]
    lots = FillLot.objects.select_related("batch").in_bulk({row[2] for row in rows})
    newest = {
        value.test_id: value
        for value in ReportedValue.objects.filter(test__in=keys).order_by("pk")
    }
    sets: dict[int, list[Determination]] = defaultdict(list)
    for each in Determination.objects.filter(test__in=keys).defer("parts"):
        sets[each.test_id].append(each)
    derived = {pk for pk, _, _, derived_from, _ in rows if derived_from}
    began = first_moments(newest.values(), derived=derived)
    for pk, characteristic, lot, _, asks in rows:
        yield Known(
            pk=pk,
            characteristic_id=characteristic,
            lot=lots[lot],
            value=newest.get(pk),
            sets=sets[pk],
            asks=asks,
            began=began.get(pk),
        )
