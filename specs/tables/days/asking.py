"""How the matters that days raise are asked."""

from collections.abc import Mapping, Sequence

from specs.tables.cells import LEAVE, Key, Matter
from specs.tables.days.counted import COUNTED, choices
from specs.tables.days.judged import OTHER, Column, asked_of, day_in
from specs.tables.days.order import Ordering, Spot
from specs.tables.days.written import Order, can_be
from specs.tables.saying import Choice
from specs.tables.sheet import TEXT

REMEDY = "Write the day that was meant instead, or leave them out."
REFUSALS = {
    "no such day": "These are no days of the calendar.",
    "after today": "These days lie after today.",
    "before 1990": "These days lie before 1990, which no laboratory means.",
    "not a day": "These cells hold no day.",
    "formula": "These cells hold a formula, not a day.",
}


def matters(spots: Mapping[Key, Spot], column: Column) -> dict[str, Matter]:
    """How each matter of a column of days is asked, by the matter's word."""
    refused = {
        word: Matter("cell", f"{text} {REMEDY}") for word, text in REFUSALS.items()
    }
    orders = {
        asked_of(mark, column.orders): _asked_order(spots, mark, it)
        for mark, it in column.orders.items()
        if it.order is None
    }
    epoch = {COUNTED: _asked_epoch(spots, column)}
    return {**refused, **orders, **epoch, OTHER: _other_order()}


def _asked_order(spots: Mapping[Key, Spot], mark: str, it: Ordering) -> Matter:
    asked = [
        spot
        for (kind, _), spot in spots.items()
        if kind == TEXT and spot.it.figures and spot.it.mark == mark
    ]
    return Matter(
        "column",
        "Which comes first in these days? Nothing in the column decides it for all of them.",
        tuple(
            Choice(order.value, order.value.capitalize(), _makes(asked, order))
            for order in it.possible
        ),
        proposed=it.proposed or "",
        is_refusal=False,
    )


def _makes(asked: Sequence[Spot], order: Order) -> str:
    made = [f"{it.text} = {day_in(it, order)}" for it in asked if can_be(it.it, order)]
    return "; ".join(made[:3])


def _asked_epoch(spots: Mapping[Key, Spot], column: Column) -> Matter:
    how = column.counting
    asked = [
        it
        for (kind, _), it in spots.items()
        if it.it.count is not None and how.is_asked(kind, it.it.count)
    ]
    return Matter(
        "column",
        "These are counts of days. Workbooks count from 1900, some from 1904: from when do these count?",
        tuple(
            Choice(epoch, f"From {epoch}", made)
            for epoch, made in choices(asked, how).items()
        ),
        proposed=how.proposed,
        is_refusal=False,
    )


def _other_order() -> Matter:
    return Matter(
        "cell",
        "These days do not fit the order of the others in their column.",
        (Choice("as read", "Take them in the only order that they fit"), LEAVE),
        is_refusal=False,
    )
