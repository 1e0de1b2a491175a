"""Files that were brought in, and looks at them, for tests that need no file to be read."""

import datetime as dt

from lims.imports import actions
from lims.imports.models import HistoryLine, Import
from lims.products.models import Product
from specs.tables.checked import Checked, Row
from specs.tables.layout import Block
from specs.tables.saying import Fate, Line, Question, RowRole, Said, Value
from tests.factories import products


def received(*, by, name="penbook.csv", content=b"Batch;Pen\n", kind="history"):
    """A file that waits to be looked at."""
    return actions.receive(name=name, content=content, kind=kind, by=by)


def product(*, by, code="LX2"):
    """The product of that code, made where it is missing."""
    return Product.objects.filter(code=code).first() or products.product(
        by=by, code=code
    )


def value(number="280", characteristic="worked-penetration", **more):
    """A result as the check of a table tells it."""
    given = {"cells": ("D3",), "raw": (number,), "rule": ""} | more
    return Value(characteristic=characteristic, value=number, **given)


def line(batch="Q1-25-0377", day="2025-12-03", code="LX2", values=None, row=3, **more):
    """The results of one batch on one day."""
    values = (value(),) if values is None else values
    return Line(rows=(row,), batch=batch, day=day, product=code, values=values, **more)


def table(*lines, questions=(), rows=(), **more):
    """A look at one table that found these lines."""
    given = {
        "key": "penbook!A1:D3",
        "sheet": "penbook",
        "titles": (),
        "heads": (1,),
        "units_row": None,
        "first": 2,
        "last": 3,
        "letters": ("A",),
        "headings": {"A": "Batch"},
        "units": {},
        "fingerprint": "f" * 64,
    } | more
    return Checked(
        block=Block(**given),
        said={"A": (Said(Fate.TAKEN, "x"), Said(Fate.TAKEN, "x"))},
        roles=(RowRole.DATA, RowRole.DATA),
        questions=tuple(questions),
        lines=tuple(lines),
        rows=tuple(Row(*it) for it in rows),
    )


def question(key="D/unit"):
    """Something that is still asked."""
    return Question(
        key=key,
        column=key[0],
        matter=key[2:],
        level="column",
        sentence="In which unit?",
        choices=(),
        cells=("D3",),
        count=1,
    )


def taken_in(*, by, drafter=None, lines=None, **file):
    """A file of history that was taken in."""
    product(by=drafter or by)
    row = received(by=by, **file)
    tables = [table(*(lines or [line()]))]
    return actions.take_in(import_of=row, tables=tables, by=by)


def history_row(import_of, *, batch="Q1-25-0377", day=dt.date(2025, 12, 3), **more):
    """A line of history that is not saved yet."""
    return HistoryLine(
        import_of=import_of,
        row=3,
        batch=batch,
        product=Product.objects.get(code="LX2"),
        measured_on=day,
        key="k" * 64,
        **more,
    )


def every_import():
    return Import.objects.order_by("pk")
