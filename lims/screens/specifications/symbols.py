"""The symbols of greases: one decoded as asked, and every letter with its meaning, source and standing."""

from collections.abc import Mapping

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.screens.access import staff
from lims.screens.specifications.designation import decoded
from specs.judging import letters
from specs.judging.letters import DIN, ISO, Meaning

LONGEST = 40

Group = tuple[str, list[tuple[str, Meaning]]]


@require_safe
@staff
def show(request: HttpRequest) -> HttpResponse:
    typed = request.GET.get("symbol", "")[:LONGEST]
    found, why_not = decoded(typed)
    context = {
        "typed": typed,
        "decoded": found,
        "why_not": why_not,
        "tables": {DIN: DIN_GROUPS, ISO: ISO_GROUPS},
    }
    return render(request, "specifications/symbols.html", context)


def _rows(meanings: Mapping[str, Meaning]) -> list[tuple[str, Meaning]]:
    return list(meanings.items())


DIN_GROUPS: list[Group] = [
    ("Use", _rows(letters.DIN_USES)),
    ("Additives and oil", _rows(letters.DIN_ADDITIVES)),
    ("Upper temperature", [(it, letters.din_upper(it)) for it in letters.DIN_UPPER]),
    ("Water, by the same letter", _rows(letters.DIN_WATER)),
    ("Lower temperature", [(it, letters.din_lower(it)) for it in letters.DIN_LOWER]),
]
ISO_GROUPS: list[Group] = [
    ("Lower temperature", [(it, letters.iso_lower(it)) for it in letters.ISO_LOWER]),
    ("Upper temperature", [(it, letters.iso_upper(it)) for it in letters.ISO_UPPER]),
    ("Water and rust", [(it, letters.iso_water(it)) for it in letters.ISO_WATER]),
    ("Load", _rows(letters.ISO_LOAD)),
]
