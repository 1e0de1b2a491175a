"""What there is to chart: products, their characteristics, and what their values can be narrowed by."""

import datetime as dt
from collections import Counter, defaultdict
from collections.abc import Iterable

from django.db.models import Count, Func, IntegerField, Max, QuerySet, Sum

from lims.bench.models import Determination, ReportedValue
from lims.imports.models import HistoryLine, Import
from lims.instruments.models import Instrument
from lims.methods.models import Characteristic
from lims.people.queries import site_zone
from lims.products.models import Product
from lims.products.queries import products
from lims.trends.asked import Choices, OfCharacteristic, OfProduct, Where
from lims.trends.own import BATCH, LOT, SAMPLE
from lims.trends.told import lines, where_of

PLACES = {"kettle": Where.KETTLE, "after mill": Where.AFTER_MILL}
AT_ONCE = 5000


class Length(Func):
    """How many things a list in JSON holds."""

    function = "JSON_ARRAY_LENGTH"
    output_field = IntegerField()

    def as_postgresql(self, compiler, connection, **more):  # type: ignore[no-untyped-def]
        return self.as_sql(compiler, connection, function="JSONB_ARRAY_LENGTH", **more)


def products_with_results() -> tuple[OfProduct, ...]:
    """Every product that has values, by code, with how many, in three queries."""
    own = {
        code: (count, latest)
        for code, count, latest in _standing()
        .values_list(f"{BATCH}__product__code")
        .annotate(count=Count("pk"), latest=Max(f"{SAMPLE}__taken_at"))
    }
    told = {
        code: (count, latest)
        for code, count, latest in HistoryLine.objects.filter(
            import_of__state=Import.State.TAKEN_IN
        )
        .order_by()
        .values_list("product__code")
        .annotate(count=Sum(Length("values")), latest=Max("measured_on"))
    }
    found = products().filter(code__in={*own, *told}).order_by("code")
    return tuple(_of_product(it, own.get(it.code), told.get(it.code)) for it in found)


def _of_product(
    product: Product,
    own: tuple[int, dt.datetime] | None,
    told: tuple[int, dt.date] | None,
) -> OfProduct:
    days = [own[1].astimezone(site_zone()).date()] if own else []
    days += [told[1]] if told else []
    return OfProduct(product, own[0] if own else 0, told[0] if told else 0, max(days))


def _standing(product: str = "") -> QuerySet[ReportedValue]:
    """The values that can be charted: of samples that count, and of samples in process."""
    rows = ReportedValue.objects.filter(
        replaced_by__isnull=True, is_withdrawn=False
    ).order_by()
    rows = rows.exclude(**{f"{SAMPLE}__counts": False, f"{LOT}__isnull": False})
    return rows.filter(**{f"{BATCH}__product__code": product}) if product else rows


def characteristics_of(product: str) -> tuple[OfCharacteristic, ...]:
    """The characteristics of a product that have values, in the order of the bench, with how many, by where they were taken. Raises nothing: an unknown product has none."""
    own: Counter[tuple[str, Where]] = Counter()
    for code, place, count in (
        _standing(product)
        .values_list("test__characteristic__code", f"{SAMPLE}__place")
        .annotate(count=Count("pk"))
    ):
        own[code, PLACES.get(place, Where.FINISHED)] += count
    told: Counter[tuple[str, Where]] = Counter()
    for place, values in (
        lines(product)
        .order_by()
        .values_list("place", "values")
        .iterator(chunk_size=AT_ONCE)
    ):
        told.update((it["characteristic"], where_of(place)) for it in values)
    return _of_characteristics(own, told)


def _of_characteristics(
    own: Counter[tuple[str, Where]], told: Counter[tuple[str, Where]]
) -> tuple[OfCharacteristic, ...]:
    codes = {code for code, _ in (*own, *told)}
    return tuple(
        OfCharacteristic(
            it,
            own=_count(own, it.code),
            history=_count(told, it.code),
            by_where={
                where: own[it.code, where] + told[it.code, where]
                for where in Where
                if own[it.code, where] + told[it.code, where]
            },
        )
        for it in Characteristic.objects.filter(code__in=codes)
    )


def _count(counted: Counter[tuple[str, Where]], code: str) -> int:
    return sum(counted[code, where] for where in Where)


def choices(product: str) -> Choices:
    """What the charts of a product can be narrowed by, as its values bear it. Whoever shows the persons asks for the permission first."""
    names: dict[str, set[str]] = defaultdict(set)
    days = _days_told(product, names) + _days_here(product, names)
    return Choices(
        kettles=_sorted(names["kettle"]),
        lots=_sorted(names["lot"]),
        instruments=_sorted(names["instrument"]),
        persons=_sorted(names["person"]),
        since=min(days, default=None),
        until=max(days, default=None),
    )


def _days_told(product: str, names: dict[str, set[str]]) -> list[dt.date]:
    rows = lines(product).order_by()
    for name in ("kettle", "instrument", "person"):
        names[name].update(rows.values_list(name, flat=True).distinct())
    ends = rows.aggregate(last=Max("measured_on")), rows.order_by("measured_on").first()
    last, first = ends[0]["last"], ends[1]
    return [first.measured_on, last] if first and last else []


def _days_here(product: str, names: dict[str, set[str]]) -> list[dt.date]:
    zone = site_zone()
    days: list[dt.date] = []
    for kettle, lot, at in (
        _standing(product)
        .values_list(f"{BATCH}__kettle", f"{LOT}__number", f"{SAMPLE}__taken_at")
        .distinct()
    ):
        names["kettle"].add(kettle)
        names["lot"].add(lot or "")
        days.append(at.astimezone(zone).date())
    of_product = {"test__sample__batch__product__code": product}
    names["person"].update(
        Determination.objects.filter(state=Determination.State.ACCEPTED, **of_product)
        .order_by()
        .values_list("begun_by__name", flat=True)
        .distinct()
    )
    names["instrument"].update(
        Instrument.objects.filter(
            uses__determination__test__sample__batch__product__code=product
        )
        .order_by()
        .values_list("number", flat=True)
        .distinct()
    )
    return days


def _sorted(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(it for it in names if it))
