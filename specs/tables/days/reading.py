"""Days as sheets hold them: typed, as text in any order of day and month, with month names, or as a count of days."""

import datetime as dt
from collections import Counter
from collections.abc import Mapping

from specs.tables.cells import Cells, Found, Key, settled, written_instead
from specs.tables.days.asking import matters
from specs.tables.days.counted import counting
from specs.tables.days.judged import EARLIEST, Column, asked_of, judged
from specs.tables.days.order import Ordering, Spot, ordering
from specs.tables.days.written import meant, written
from specs.tables.saying import Answers
from specs.tables.sheet import TEXT


def read_days(
    cells: Cells, *, today: dt.date, is_1904: bool, answers: Answers
) -> Found:
    """The days of a column, in ISO 8601, one Said for each of the cells.

    Questions (key = letter, "/", matter): "date order" (choices: day first, month first,
    year first; "date order /" and so on where days with two marks are unsure) and "serial epoch" (1900, 1904), both of level column; of level cell and
    taking text, with the choice "leave": "no such day", "after today", "before 1990", "not a day",
    "formula", and "other order" (with "as read" beside "leave"). A cell that was left out
    has Fate.LEFT_OUT, and its `why`; an empty one Fate.EMPTY. `answers.instead` is heeded: such a
    text is read in the column's own order and decides nothing for others. Raises nothing.
    """
    spots = _spots(cells)
    column = _column(cells, spots, today, answers, is_1904=is_1904)
    found = {key: judged(key[0], it, column) for key, it in spots.items()}
    instead = {
        place: judged(TEXT, Spot(text, "", written(text)), column)
        for place, text in written_instead(cells, answers).items()
    }
    return settled(cells, found, instead, matters(spots, column), answers)


def _spots(cells: Cells) -> dict[Key, Spot]:
    """Every distinct cell with what it writes, and where it stands first."""
    keys = list(zip(cells.kinds, cells.texts, strict=True))
    counts = Counter(keys)
    first = {key: place for place, key in reversed(list(enumerate(keys)))}
    return {
        key: Spot(key[1], cells.address(first[key]), written(key[1]), count)
        for key, count in counts.items()
    }


def _column(
    cells: Cells,
    spots: Mapping[Key, Spot],
    today: dt.date,
    answers: Answers,
    *,
    is_1904: bool,
) -> Column:
    pools: dict[str, list[Spot]] = {}
    for (kind, _), spot in spots.items():
        if kind == TEXT and spot.it.figures:
            pools.setdefault(spot.it.mark, []).append(spot)
    orders = {mark: ordering(mark, some, today) for mark, some in pools.items()}
    counts = [(kind, it) for (kind, _), it in spots.items() if it.it.count is not None]
    return Column(
        today,
        orders,
        counting(
            counts, _certain_days(spots, orders), today, EARLIEST, is_1904=is_1904
        ),
        {
            mark: answers.choices.get(f"{cells.letter}/{asked_of(mark, orders)}", "")
            for mark in orders
        },
    )


def _certain_days(
    spots: Mapping[Key, Spot], orders: Mapping[str, Ordering]
) -> list[dt.date]:
    """The days that are known without a count: counts that are meant lie among them."""
    found = []
    for (kind, _), spot in spots.items():
        order = orders[spot.it.mark].order if kind == TEXT and spot.it.figures else None
        day = meant(spot.it, order) if order else spot.it.day
        if day:
            found.append(day)
    return found
