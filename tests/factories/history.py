"""Unverified history for the charts: results of earlier batches, as a file that was taken in tells them."""

import datetime as dt

from lims.imports import actions
from tests.factories import bringing

FIRST = dt.date(2024, 1, 8)
KETTLES = ("K1", "K2")


def lines(
    numbers,
    *,
    characteristic="worked-penetration",
    product="LX2",
    first=FIRST,
    every=3,
    kettles=KETTLES,
    **more,
):
    """One batch a number, `every` so many days, from the kettles in turn."""
    return [
        bringing.line(
            batch=f"H{first.year % 100:02d}-{at + 1:04d}",
            day=str(first + dt.timedelta(days=at * every)),
            code=product,
            kettle=kettles[at % len(kettles)] if kettles else "",
            row=at + 3,
            values=(
                bringing.value(
                    str(number),
                    characteristic,
                    cells=(f"D{at + 3}",),
                    raw=(str(number),),
                ),
            ),
            **more,
        )
        for at, number in enumerate(numbers)
    ]


def taken_in(rows, *, by, name="history.csv"):
    """A file with these lines, taken in; its products stand there already."""
    content = "\n".join(f"{it.batch};{it.values[0].value}" for it in rows)
    file = bringing.received(by=by, name=name, content=content.encode())
    return actions.take_in(import_of=file, tables=[bringing.table(*rows)], by=by)
