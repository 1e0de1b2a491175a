"""What a file would bring, or brought: line by line."""

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.imports import queries, rules
from lims.imports.models import HistoryLine, Import
from lims.methods.models import Characteristic
from lims.people.permissions import Permission, allowed
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.imports import words
from lims.screens.imports.finding import import_or_404
from lims.screens.imports.meanings import meanings
from lims.screens.imports.values import ValueShown, names, shown
from lims.screens.paging import page_of
from lims.sheets import looking
from lims.sheets.exports import Export, Row, columns, typed
from specs.tables.saying import Line

Names = dict[str, Characteristic]
OF_LOG = {
    "heading": "Head",
    "subject": "Of",
    "measures": "Measures",
    "unit": "Unit",
    "count": "Readings",
    "started_at": "Begun",
}


@dataclass(frozen=True)
class LineShown:
    """One line: of a look, or stored (then with its key)."""

    rows: tuple[int, ...]
    batch: str
    day: str
    product: str
    about: tuple[str, ...]  # kettle, fill lot, place, instrument
    person: str
    remark: str
    values: list[ValueShown]
    pk: int | None = None


@require_safe
@staff
def show(request: HttpRequest, pk: int) -> HttpResponseBase:
    row = import_or_404(pk)
    if row.state == Import.State.RECEIVED:
        return _to_come(request, row)
    stored = queries.lines_of(row)
    if exporting.is_asked(request):
        may = allowed(person_of(request), Permission.SEE_PERSONS)
        return exporting.answer(request, sheet(stored.iterator(500), may_see=may))
    page = page_of(request, stored)
    known = names()
    context = {
        "page": page,
        "lines": [_stored(it, known) for it in page],
        "logs": row.logs.defer("block"),
    }
    return render(request, "imports/lines.html", _context(request, row, context))


def _to_come(request: HttpRequest, row: Import) -> HttpResponse:
    """The lines that would be taken in, as the file was last looked at."""
    rules.check_may(person_of(request), row.kind)
    look = looking.looked(row)
    context: dict[str, Any] = {"is_at_work": words.is_at_work(look)}
    if look is not None and look.blocks and not context["is_at_work"]:
        tables = looking.tables_of(row)
        if row.kind == Import.Kind.HISTORY:
            page = page_of(request, [line for it in tables for line in it.lines])
            known = names()
            context |= {"page": page, "lines": [_planned(it, known) for it in page]}
        else:
            page = page_of(request, [line for it in tables for line in it.rows])
            context |= {"page": page, "rows": _named(row, page)}
    return render(request, "imports/lines.html", _context(request, row, context))


def _context(request: HttpRequest, row: Import, more: dict[str, Any]) -> dict[str, Any]:
    person = person_of(request)
    return {
        "import": row,
        "is_history": row.kind == Import.Kind.HISTORY,
        "is_stored": row.state != Import.State.RECEIVED,
        "may_see_persons": allowed(person, Permission.SEE_PERSONS),
        **more,
    }


def _planned(it: Line, known: Names) -> LineShown:
    about = (it.kettle, it.pack, it.place, it.instrument)
    values = shown((asdict(value) for value in it.values), known)
    return LineShown(
        it.rows, it.batch, it.day, it.product, about, it.person, it.remark, values
    )


def _stored(it: HistoryLine, known: Names) -> LineShown:
    about = (it.kettle, it.pack, it.place, it.instrument)
    return LineShown(
        rows=(it.row,),
        batch=it.batch,
        day=it.measured_on.isoformat(),
        product=it.product.code,
        about=about,
        person=it.person,
        remark=it.remark,
        values=shown(it.values, known),
        pk=it.pk,
    )


def _named(row: Import, rows: Sequence[Any]) -> list[tuple[int, list[tuple[str, str]]]]:
    """Rows of another kind: each value under the word of its column."""
    known = meanings(row.kind)
    is_log = row.kind == Import.Kind.LOG
    return [
        (
            it.row,
            [
                (OF_LOG[key] if is_log else known.words(key), text)
                for key, text in it.values.items()
                if text and (not is_log or key in OF_LOG)
            ],
        )
        for it in rows
    ]


def sheet(rows: Iterator[HistoryLine], *, may_see: bool) -> Export:
    """Stored history, one result a row; persons only for who compares results by person."""
    heads = columns(
        *("Batch", "Date", "Product", "Kettle", "Fill lot", "Where sampled"),
        *("Characteristic", "Conditions", "Value", "Unit", "Sheet", "Cells"),
        *("As it stood", "Read by", "Instrument"),
        *(("Person", "Remark") if may_see else ("Remark",)),
    )
    return Export("history", heads, _rows(rows, names(), may_see=may_see))


def _rows(rows: Iterator[HistoryLine], known: Names, *, may_see: bool) -> Iterator[Row]:
    for it in rows:
        for value in shown(it.values, known):
            yield [
                *(it.batch, it.measured_on, it.product.code, it.kettle, it.pack),
                *(it.place, value.name, value.conditions, typed(value.value)),
                *(value.unit, it.sheet, ", ".join(value.cells)),
                *("; ".join(value.raw), value.rule, it.instrument),
                *((it.person, it.remark) if may_see else (it.remark,)),
            ]
