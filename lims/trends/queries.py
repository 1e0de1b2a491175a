"""Questions to the charts: what the values of a product were over time, from every source, beside the limits as they stood."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from lims.methods.models import Characteristic
from lims.methods.queries import characteristic as the_characteristic
from lims.products.queries import product as the_product
from lims.record.refusals import BadInput
from lims.trends.asked import (
    Asked,
    Comparison,
    Point,
    Series,
    Source,
    Trend,
    Where,
)
from lims.trends.limits import Beside, Held, held
from lims.trends.listing import characteristics_of, choices, products_with_results
from lims.trends.narrowing import narrowed
from lims.trends.own import Found, found_here
from lims.trends.summing import is_numeric, numbers_of, over_time, summed_up
from lims.trends.telling import Counted, notes, said
from lims.trends.told import found_in_history
from specs.statistics.comparison import Compared, compared

__all__ = [
    "characteristics_of",
    "choices",
    "compare",
    "over_time",
    "products_with_results",
    "small",
    "trend",
]


def trend(asked: Asked) -> Trend:
    """One chart. Whoever shows its persons, or narrows by one, asks for the permission first.

    Raises Product.DoesNotExist or Characteristic.DoesNotExist.
    """
    product = the_product(asked.product)
    of = the_characteristic(asked.characteristic)
    here, passed_over = found_here(product.code, asked.where, of.code)
    told = (
        found_in_history(product.code, asked.where, of.code, asked.since, asked.until)
        if asked.history
        else []
    )
    limits = held(product, [of], asked.where)[of.code]
    return _trend(asked, limits, narrowed([*here, *told], asked), passed_over)


def small(product: str, where: Where = Where.FINISHED) -> tuple[Trend, ...]:
    """Every characteristic of a product that has values, in the order of the bench; as many queries however many there are.

    Raises Product.DoesNotExist.
    """
    of_product = the_product(product)
    by_code: dict[str, list[Found]] = defaultdict(list)
    here, _ = found_here(of_product.code, where)
    for it in [*here, *found_in_history(of_product.code, where)]:
        by_code[it.characteristic].append(it)
    kinds = list(Characteristic.objects.filter(code__in=by_code))
    limits = held(of_product, kinds, where)
    return tuple(
        _trend(Asked(product, it.code, where), limits[it.code], by_code[it.code])
        for it in kinds
    )


def compare(first: Asked, second: Asked) -> Comparison:
    """Two groups of one characteristic, on one scale. Marks and loads stand beside each other without a difference.

    Raises BadInput where the two are not of one characteristic and one place, else as
    `trend`.
    """
    if first.characteristic != second.characteristic:
        raise BadInput(
            "Two characteristics have no scale in common: compare one with itself.",
            field="characteristic",
        )
    if first.where != second.where:
        raise BadInput(
            "Kettle samples and finished product are never mixed: compare like with "
            "like.",
            field="where",
        )
    a, b = trend(first), trend(second)
    return Comparison(a, b, _compared(a, b))


def _compared(first: Trend, second: Trend) -> dict[Source, Compared]:
    if first.characteristic.kind != Characteristic.Kind.NUMBER:
        return {}
    groups = [
        {it.source: numbers_of(it.points) for it in side.series}
        for side in (first, second)
    ]
    return {
        source: compared(numbers, groups[1][source])
        for source, numbers in groups[0].items()
        if numbers and groups[1].get(source)
    }


def _trend(
    asked: Asked, limits: Held, found: Sequence[Found], passed_over: int = 0
) -> Trend:
    of = limits.characteristic
    points = _points(found, limits)
    series = tuple(
        Series(source, tuple(points[source]), summed_up(points[source], of))
        for source in Source
        if points[source]
    )
    counted = Counted.of(found, limits, is_numeric=is_numeric(of))
    return Trend(asked, of, series, limits.spans, notes(counted, limits, passed_over))


def _points(found: Iterable[Found], limits: Held) -> dict[Source, list[Point]]:
    """The values of each source in order of time, each beside the limits of its fill lot or day."""
    lies = Beside(limits)
    points: dict[Source, list[Point]] = defaultdict(list)
    for it in found:
        points[it.source].append(
            Point(
                at=it.at,
                batch=it.batch,
                lot=it.lot,
                value=it.value,
                said=said(it.value, limits.characteristic),
                source=it.source,
                kettle=it.kettle,
                instrument=", ".join(sorted(it.instruments)),
                person=it.person,
                beside=lies.of(it.value, it.day, it.revision),
                lot_number=it.lot_number,
                line_id=it.line_id,
                place=it.place,
            )
        )
    return points
