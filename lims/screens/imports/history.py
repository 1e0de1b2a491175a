"""One line of unverified history: each value with the cell it was read from, as it stood there, and the rule."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.batches import queries as batches
from lims.imports import queries
from lims.imports.models import HistoryLine, Import
from lims.people.permissions import Permission, allowed
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.imports.finding import may_see_cells
from lims.screens.imports.values import names, shown
from lims.screens.results import in_fours


@require_safe
@staff
def show(request: HttpRequest, pk: int) -> HttpResponse:
    line, person = line_or_404(pk), person_of(request)
    source = line.import_of
    context = {
        "line": line,
        "import": source,
        "fingerprint": in_fours(source.sha256),
        "is_withdrawn": source.state == Import.State.WITHDRAWN,
        "values": shown(line.values, names()),
        "batch": batches.batches().filter(number=line.batch).first(),
        "others": queries.history_of_batch(line.batch).exclude(pk=line.pk),
        "may_see_persons": allowed(person, Permission.SEE_PERSONS),
        "may_see_cells": may_see_cells(person, source),
    }
    return render(request, "imports/history.html", context)


def line_or_404(pk: int) -> HistoryLine:
    try:
        return queries.history_line(pk)
    except HistoryLine.DoesNotExist as missing:
        raise Http404 from missing
