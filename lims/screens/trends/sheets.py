"""The values of a chart, and the products that can be charted, as rows of a sheet."""

from collections.abc import Iterable, Iterator

from lims.screens.exporting import clock
from lims.screens.trends import points
from lims.sheets.exports import Column, Export, Row, columns, typed
from lims.trends.asked import OfProduct, Point, Trend


def values(trend: Trend, *, with_persons: bool, key: str = "values") -> Export:
    """One value a row, oldest first, as the table beneath the chart shows them."""
    unit = trend.characteristic.unit
    heads = columns(
        *("Day", "Time", "Product", "Characteristic", "Conditions", "Batch"),
        *("Fill lot", "Taken from", "Value", "From", "Beside the limits", "Kettle"),
        "Instrument",
        time=clock(),
        value=unit,
    )
    if with_persons:
        heads.append(Column("Person"))
    return Export(key, heads, _values(trend, with_persons=with_persons))


def _values(trend: Trend, *, with_persons: bool) -> Iterator[Row]:
    measured = trend.characteristic
    for point in trend.points:
        row = points.shown(point)
        yield [
            *(row.day, row.clock, trend.asked.product, measured.name),
            *(measured.conditions, point.batch, point.lot, point.place),
            *(typed(point.value.removeprefix("+")), row.source, row.beside),
            *(point.kettle, point.instrument),
            *_person(point, is_shown=with_persons),
        ]


def _person(point: Point, *, is_shown: bool) -> list[str]:
    return [point.person] if is_shown else []


def products(rows: Iterable[OfProduct]) -> Export:
    """One product a row, with how many values can be charted."""
    heads = columns(
        *("Product", "Name of the product", "Values reported here"),
        *("Values of unverified history", "Last value"),
    )
    return Export("trends", heads, map(_product, rows))


def _product(row: OfProduct) -> Row:
    return [row.product.code, row.product.name, row.own, row.history, row.latest]
