"""What one cell of a column of days comes to by itself: taken, converted, asked or refused."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from specs.tables.cells import Judged, shown
from specs.tables.days.counted import Counting
from specs.tables.days.order import Ordering, Spot, ordering
from specs.tables.days.written import Order, can_be, in_words, meant, no_such_day
from specs.tables.saying import Fate, Said
from specs.tables.sheet import EMPTY, FAULT, FORMULA, YES_NO

EARLIEST = dt.date(1990, 1, 1)  # common practice, no source: older ones are slips
ASKED, OTHER = "date order", "other order"
WITHOUT_TIME = "the time of day is left out"
NO_DAY = {
    FORMULA: ("holds a formula: write the day itself, such as 2025-12-03.", "formula"),
    FAULT: (
        "is a fault of the workbook: write the day, such as 2025-12-03.",
        "not a day",
    ),
    YES_NO: ("is no day: write it as 2025-12-03.", "not a day"),
}


@dataclass(frozen=True)
class Column:
    """What all the days of one column tell of how each is read."""

    today: dt.date
    orders: Mapping[str, Ordering]  # by the mark between the figures
    counting: Counting
    chosen: Mapping[str, str]  # by the mark: the order answered, if it was asked

    def asked(self, spot: Spot) -> str:
        """The matter of the order of days with this mark between their figures."""
        return asked_of(spot.it.mark, self.orders)


def asked_of(mark: str, orders: Mapping[str, Ordering]) -> str:
    """The matter of the order of days with one mark; the mark is named where two are unsure."""
    unsure = [it for it in orders.values() if it.order is None]
    return ASKED if len(unsure) < 2 else f"{ASKED} {mark}"


def judged(kind: str, spot: Spot, column: Column) -> Judged:
    """What one cell comes to by itself in a column of days. Raises nothing."""
    if kind in NO_DAY:
        why, matter = NO_DAY[kind]
        return _refused(why, spot, matter)
    if not spot.text.strip() or kind == EMPTY:
        return Judged(Said(Fate.EMPTY))
    if spot.it.count is not None:
        return column.counting.judged(kind, spot)
    if spot.it.figures:
        return _of_figures(spot, column)
    if spot.it.day:
        return _of_certain(spot, spot.it.day, column)
    return _refused(spot.it.why, spot, spot.it.matter)


def _of_certain(spot: Spot, day: dt.date, column: Column) -> Judged:
    """A day that its own text decides."""
    if spot.it.has_time:
        return _of_day(spot, day, column, WITHOUT_TIME, Fate.CONVERTED)
    is_short = spot.it.by_name
    return _of_day(
        spot, day, column, "day first, then month and year" if is_short else ""
    )


def _refused(why: str, spot: Spot, matter: str) -> Judged:
    return Judged(Said(Fate.REFUSED, why=f"{shown(spot.text)} {why}"), matter)


def _of_day(
    spot: Spot, day: dt.date, column: Column, rule: str, fate: Fate = Fate.TAKEN
) -> Judged:
    """A day that is certain, if a laboratory can mean it."""
    if spot.it.weekday not in (None, day.weekday()):
        why = f"names another weekday than {in_words(day)} has: write the day that was meant."
        return _refused(why, spot, "no such day")
    if day > column.today:
        why = f"lies after today, {in_words(column.today)}: write the day of the test."
        return _refused(why, spot, "after today")
    if day < EARLIEST:
        return _refused(
            "lies before 1990: write the day of the test.", spot, "before 1990"
        )
    return Judged(Said(fate, value=day.isoformat(), rule=rule))


def _of_figures(spot: Spot, column: Column) -> Judged:
    """Figures in the order that the column decides, or that was answered, or still to be asked."""
    found = column.orders.get(spot.it.mark)
    if found is None:
        return _by_itself(spot, column)
    if found.order is not None:
        return _in_order(spot, found.order, column, found.reason)
    possible = [it for it in found.possible if can_be(spot.it, it)]
    if not possible:
        return _refused(no_such_day().why, spot, "no such day")
    if len({meant(spot.it, it) for it in found.possible}) == 1:
        return _in_order(spot, possible[0], column, "")
    chosen = column.chosen.get(spot.it.mark, "")
    if chosen in found.possible:
        return _as_chosen(spot, Order(chosen), possible, column)
    return Judged(Said(Fate.ASKS, why=_meanings(spot, possible)), column.asked(spot))


def _by_itself(spot: Spot, column: Column) -> Judged:
    """A day written instead of another in a way that the column does not have."""
    alone = ordering(spot.it.mark, [spot], column.today)
    if alone.order is not None:
        return _in_order(spot, alone.order, column, alone.reason)
    why = f"{_meanings(spot, alone.possible)} Write it as 2025-12-03."
    return Judged(Said(Fate.REFUSED, why=why), "not a day")


def _meanings(spot: Spot, possible: Sequence[Order]) -> str:
    means = " or ".join(f"{day_in(spot, it)} ({it})" for it in possible)
    return f"{shown(spot.text)} can be {means}."


def _as_chosen(
    spot: Spot, order: Order, possible: Sequence[Order], column: Column
) -> Judged:
    """A day of a column whose order was answered; one that does not fit it is asked by itself."""
    if order in possible:
        read = _in_order(spot, order, column, f"{order}, as answered")
        if read.matter:
            return read
        return Judged(read.said, column.asked(spot), {order: read.said})
    only = possible[0]
    read = _in_order(spot, only, column, f"{only}, as answered for this day")
    if read.matter:
        return read
    why = (
        f"{shown(spot.text)} cannot be {order} as the others are; {only} it would be "
        f"{day_in(spot, only)}. Take it so, or write the day that was meant."
    )
    said = Said(Fate.ASKS, value=read.said.value, why=why)
    return Judged(said, OTHER, {"as read": read.said})


def _in_order(spot: Spot, order: Order, column: Column, rule: str) -> Judged:
    day = meant(spot.it, order) if can_be(spot.it, order) else None
    if day is None:
        return _refused(no_such_day().why, spot, "no such day")
    is_plain = not spot.it.has_time and (spot.it.mark == "." or not rule)
    rules = (rule, WITHOUT_TIME if spot.it.has_time else "")
    return _of_day(
        spot,
        day,
        column,
        "; ".join(it for it in rules if it),
        Fate.TAKEN if is_plain else Fate.CONVERTED,
    )


def day_in(spot: Spot, order: Order) -> str:
    day = meant(spot.it, order)
    return in_words(day) if day else "no day"
