"""One signal over time, as a logger's file told it: drawn, and the same in figures."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import Any

from django.http import Http404, HttpRequest
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.imports import queries
from lims.imports.kinds.logs import points_of
from lims.imports.models import Import, Log
from lims.screens import exporting
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.imports.finding import may_see_cells
from lims.screens.paging import page_of
from lims.screens.results import in_fours
from lims.sheets.exports import Column, Export

Points = Sequence[tuple[Decimal, Decimal]]


@dataclass(frozen=True)
class Told:
    """A signal in figures: its ends and how it lay between."""

    first: Decimal
    last: Decimal
    lowest: Decimal
    lowest_at: Decimal
    highest: Decimal
    highest_at: Decimal
    minutes: Decimal
    longest_gap: Decimal


@require_safe
@staff
def show(request: HttpRequest, pk: int) -> HttpResponseBase:
    row = log_or_404(pk)
    points = points_of(row)
    if exporting.is_asked(request):
        heads = [
            Column("Since the first reading", "min"),
            Column(row.heading, row.unit),
        ]
        return exporting.answer(request, Export("log", heads, points))
    context = {
        "log": row,
        "import": row.import_of,
        "is_withdrawn": row.import_of.state == Import.State.WITHDRAWN,
        "may_see_cells": may_see_cells(person_of(request), row.import_of),
        "fingerprint": in_fours(row.import_of.sha256),
        "told": told(points),
        "page": page_of(request, points),
        "drawn": drawn(row, points),
    }
    return render(request, "imports/log.html", context)


def told(points: Points) -> Told:
    """The ends, the lowest and the highest reading with their times, and the longest gap."""
    lowest = min(points, key=lambda it: it[1])
    highest = max(points, key=lambda it: it[1])
    return Told(
        first=points[0][1],
        last=points[-1][1],
        lowest=lowest[1],
        lowest_at=lowest[0],
        highest=highest[1],
        highest_at=highest[0],
        minutes=points[-1][0] - points[0][0],
        longest_gap=max(
            later - earlier for (earlier, _), (later, _) in pairwise(points)
        ),
    )


def drawn(row: Log, points: Points) -> dict[str, Any]:
    """What the curve is drawn from."""
    figures = told(points)
    return {
        "title": f"{row.heading} of {row.subject}",
        "about": (
            f"{row.measures.capitalize()} in {row.unit} over {figures.minutes:f} min: from "
            f"{figures.first} to {figures.last}, lowest {figures.lowest}, highest "
            f"{figures.highest}."
        ),
        "points": [(float(minute), float(value)) for minute, value in points],
        "unit": row.unit,
    }


def log_or_404(pk: int) -> Log:
    try:
        return queries.log(pk)
    except Log.DoesNotExist as missing:
        raise Http404 from missing
