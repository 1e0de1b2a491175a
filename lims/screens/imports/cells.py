"""Every cell of a table by what becomes of it: as it stood, and as it would be taken."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from lims.imports.models import Import
from lims.screens.access import staff
from lims.screens.batches.answers import person_of
from lims.screens.imports import words
from lims.screens.imports.finding import block_or_404, waiting
from lims.screens.paging import page_of
from lims.sheets import looking
from lims.sheets.looking import BlockLook
from specs.tables.checked import Checked
from specs.tables.saying import Fate, RowRole, Said
from specs.tables.sheet import Sheet

CELLS_A_PAGE = 100
Place = tuple[int, str]  # row and column


@dataclass(frozen=True)
class Asked:
    """Which cells are to be listed; the empty ones only where they are asked for."""

    table: int
    fate: str = ""
    column: str = ""

    @classmethod
    def of(cls, given: Mapping[str, str]) -> "Asked":
        """As the address says it; the first table where it names none."""
        table = given.get("table", "1")
        fate = given.get("fate", "")
        return cls(
            int(table) if table.isascii() and table.isdigit() and len(table) < 5 else 1,
            fate if fate in set(Fate) else "",
            given.get("column", "").upper(),
        )

    def fits(self, said: Said) -> bool:
        return said.fate == self.fate if self.fate else said.fate != Fate.EMPTY


@dataclass(frozen=True)
class CellShown:
    """One cell: where it stands, as it stood, what becomes of it."""

    address: str
    heading: str
    raw: str
    said: Said
    role: str  # of its row, where that is not data


@require_safe
@staff
def show(request: HttpRequest, pk: int) -> HttpResponse:
    row, look = waiting(pk, person_of(request))
    asked = Asked.of(request.GET)
    context: dict[str, Any] = {
        "import": row,
        "asked": asked,
        "fates": list(Fate),
        "is_at_work": words.is_at_work(look),
        "blocks": list(enumerate(look.blocks, 1)),
    }
    block = block_or_404(look, asked.table) if look.blocks else None
    context["block"] = block
    if block is not None and block.counts and not context["is_at_work"]:
        context |= _listed(request, row, block, asked)
    return render(request, "imports/cells.html", context)


def _listed(
    request: HttpRequest, row: Import, block: BlockLook, asked: Asked
) -> dict[str, Any]:
    table = looking.checked(row, block.block.key)
    sheet = looking.sheet_of(row, block.block)
    places = _fitting(row.pk, row.version, block.block.key, asked)
    page = page_of(request, places, size=CELLS_A_PAGE)
    return {
        "page": page,
        "cells": [_shown(table, sheet, *place) for place in page],
        "columns": [
            (letter, block.block.headings.get(letter, "")) for letter in table.said
        ],
    }


@lru_cache(maxsize=8)
def _fitting(pk: int, _version: int, key: str, asked: Asked) -> Sequence[Place]:
    """The cells that fit, row by row; remembered, as a person turns page after page."""
    table = looking.checked(Import.objects.get(pk=pk), key)
    some = table.said.items()
    columns = [it for it in some if not asked.column or it[0] == asked.column]
    return [
        (row, letter)
        for place, row in enumerate(range(table.block.first, table.block.last + 1))
        for letter, said in columns
        if asked.fits(said[place])
    ]


def _shown(table: Checked, sheet: Sheet, row: int, letter: str) -> CellShown:
    role = table.role(row)
    return CellShown(
        address=f"{letter}{row}",
        heading=table.block.headings.get(letter, ""),
        raw=sheet.text(letter, row),
        said=table.at(letter, row),
        role="" if role == RowRole.DATA else role.value,
    )
