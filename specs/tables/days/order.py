"""Which comes first in a column's days of figures, day, month or year: told by the days that can be read in one order only."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from specs.tables.days.written import Order, Written, can_be, in_words, meant

ORDERS = tuple(Order)


@dataclass(frozen=True)
class Ordering:
    """How the days of one column that have the same mark between their figures are read.

    `order` is what the column itself decides, with the reason; None where it does not. Then
    `possible` are the orders to be asked for, and `proposed` the likelier one, if any.
    """

    order: Order | None
    reason: str = ""
    possible: tuple[Order, ...] = ()
    proposed: Order | None = None


@dataclass(frozen=True)
class Spot:
    """One distinct text: where it stands first, and how often."""

    text: str
    address: str
    it: Written
    count: int = 1

    @property
    def named(self) -> str:
        """The text with its address; without one it was written just now."""
        return f"{self.text} ({self.address})" if self.address else self.text


def ordering(mark: str, spots: Sequence[Spot], today: dt.date) -> Ordering:
    """The order that the days of one mark are written in, if they say so.

    An order is out where a day's figures do not fit it (no month 15), or where it would mean
    a day after `today`, which no result has. Days with points are written day first (DIN 5008).
    """
    fits = {spot.text: fitting(spot.it, today) for spot in spots}
    telling = [spot for spot in spots if fits[spot.text]]
    left = [order for order in ORDERS if all(order in fits[it.text] for it in telling)]
    if mark == "." and Order.DAY_FIRST in left:
        return Ordering(Order.DAY_FIRST, "day first, as days with points are written")
    if len(left) == 1 and mark != "." and telling:
        return Ordering(left[0], _reason(left[0], telling, today))
    if len(left) > 1 and _all_agree(left, telling):
        return Ordering(left[0])
    possible = (
        left
        if len(left) > 1
        else [it for it in ORDERS if any(it in fits[s.text] for s in telling)]
    )
    if not possible:
        return Ordering(Order.DAY_FIRST)
    return Ordering(None, "", tuple(possible), _likelier(possible, telling, fits))


def fitting(it: Written, today: dt.date) -> frozenset[Order]:
    """The orders that a day can be written in, at all and before tomorrow."""
    return frozenset(
        order
        for order in ORDERS
        if can_be(it, order) and _is_past(it, order, today) and _fits_weekday(it, order)
    )


def _is_past(it: Written, order: Order, today: dt.date) -> bool:
    day = meant(it, order)
    return day is None or day <= today


def _fits_weekday(it: Written, order: Order) -> bool:
    day = meant(it, order)
    return day is None or it.weekday in (None, day.weekday())


def _reason(order: Order, telling: Sequence[Spot], today: dt.date) -> str:
    """The order, and the first day that could not be read in another."""
    for spot in telling:
        for other in (Order.MONTH_FIRST, Order.DAY_FIRST):
            if other is not order and not can_be(spot.it, other):
                return f"{order}: {spot.named} cannot be {other}"
    for spot in telling:
        for other in ORDERS:
            day = meant(spot.it, other) if can_be(spot.it, other) else None
            if day and other is not order and day > today:
                return f"{order}: {other}, {spot.named} would be {in_words(day)}, after today"
    return f"{order}: no other order fits the weekdays"


def _all_agree(orders: Sequence[Order], telling: Sequence[Spot]) -> bool:
    """Whether every day is the same in each order, such as 03/03/2025."""
    return all(len({meant(it.it, order) for order in orders}) == 1 for it in telling)


def _likelier(
    possible: Sequence[Order],
    telling: Sequence[Spot],
    fits: Mapping[str, frozenset[Order]],
) -> Order | None:
    """The order that more days fit; of equals the one in which they lie much closer together."""
    counts = {
        order: sum(it.count for it in telling if order in fits[it.text])
        for order in possible
    }
    most = [order for order in possible if counts[order] == max(counts.values())]
    spans = {order: _span(order, telling) for order in most}
    best = min(most, key=lambda order: spans[order])
    others = [spans[order] for order in most if order is not best]
    return best if all(spans[best] * 2 < span for span in others) else None


def _span(order: Order, telling: Sequence[Spot]) -> int:
    days = [day for it in telling if (day := meant(it.it, order))]
    return (max(days) - min(days)).days if days else 0
