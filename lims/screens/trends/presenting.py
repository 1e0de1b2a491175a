"""The products that can be charted, and all characteristics of one as small charts."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.http import HttpRequest
from django.urls import reverse
from django_tables2 import RequestConfig

from lims.drawing.trend import OF
from lims.imports.models import Import
from lims.imports.rules import may_bring_in
from lims.people.models import Person
from lims.products.models import Product
from lims.screens.paging import ROWS
from lims.screens.trends import asking, drawn, points, words
from lims.screens.trends.tables import ProductTable
from lims.trends import queries
from lims.trends.asked import Asked, OfCharacteristic, OfProduct, Trend, Where
from lims.wording.numbers import with_unit


def list_page(
    request: HttpRequest, rows: Sequence[OfProduct], person: Person
) -> dict[str, Any]:
    """Every product with values, and how many."""
    table = ProductTable(list(rows))
    pages = {"per_page": ROWS, "silent": True}
    RequestConfig(request, paginate=pages).configure(table)
    return {
        "table": table,
        "is_empty": not rows,
        "answer": _answer(rows),
        "may_bring_in": may_bring_in(person, Import.Kind.HISTORY),
    }


def _answer(rows: Sequence[OfProduct]) -> str:
    if not rows:
        return "No result can be charted yet."
    own, history = sum(it.own for it in rows), sum(it.history for it in rows)
    return (
        f"{words.number_of(len(rows), 'product')} can be charted: "
        f"{words.number_of(own, 'value')} reported here, "
        f"{words.number_of(history, 'value')} of unverified history."
    )


@dataclass(frozen=True)
class Card:
    """One characteristic as a small chart, with its last value and where it leads."""

    trend: Trend
    drawn: str
    count: int
    last: str
    days: str
    address: str


@dataclass(frozen=True)
class Tab:
    """One of the three kinds of sample, with how many values it has."""

    words: str
    count: int
    address: str
    is_here: bool


def product_page(product: Product, where: Where, person: Person) -> dict[str, Any]:
    """All characteristics of a product in one look."""
    counted = queries.characteristics_of(product.code)
    cards = [_card(it) for it in queries.small(product.code, where) if it.points]
    return {
        "product": product,
        "where": where,
        "of": OF[where],
        "tabs": tabs(product, counted, where),
        "cards": cards,
        "answer": _product_answer(product, where, cards),
        "has_any": any(it.total for it in counted),
        "may_bring_in": may_bring_in(person, Import.Kind.HISTORY),
    }


def tabs(
    product: Product, counted: Sequence[OfCharacteristic], here: Where
) -> list[Tab]:
    """How many values there are of each kind of sample, and where they are shown."""
    own = reverse("trends:product", args=[product.code])
    return [
        Tab(
            name,
            sum(it.by_where.get(where, 0) for it in counted),
            own + asking.query_of(Asked("", "", where)),
            where == here,
        )
        for where, name in OF.items()
    ]


def _card(trend: Trend) -> Card:
    last, measured = trend.points[-1], trend.characteristic
    own = reverse("trends:one", args=[trend.asked.product, measured.code])
    return Card(
        trend=trend,
        drawn=drawn.small(trend),
        count=len(trend.points),
        last=with_unit(last.value, measured.unit, signed=measured.is_signed),
        days=_days(trend),
        address=own + asking.query_of(trend.asked),
    )


def _days(trend: Trend) -> str:
    first, last = (points.day_words(it) for it in (trend.points[0], trend.points[-1]))
    return last if first == last else f"{first} to {last}"


def _product_answer(product: Product, where: Where, cards: Sequence[Card]) -> str:
    of = OF[where]
    if not cards:
        return f"No value of {of} of {product.code} can be charted yet."
    values = sum(it.count for it in cards)
    last = max(cards, key=lambda it: it.trend.points[-1].at)
    day = points.day_words(last.trend.points[-1])
    return (
        f"{words.number_of(len(cards), 'characteristic')} of {product.code}, {of}: "
        f"{words.number_of(values, 'value')}, the last of {day}."
    )
