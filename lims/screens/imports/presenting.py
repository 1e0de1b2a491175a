"""One file as its page shows it: where it stands, its tables, what would be taken in, the file itself."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from django.urls import reverse
from django.utils.http import urlencode

from lims.imports import queries, rules
from lims.imports.models import Import, Staging
from lims.people.models import Person
from lims.products.models import Product
from lims.record import clock
from lims.screens.imports import words
from lims.screens.imports.finding import may_see_cells
from lims.screens.imports.forms import (
    ReadingForm,
    ReasonForm,
    VersionForm,
    as_sent,
)
from lims.screens.imports.meanings import LEFT_OUT
from lims.screens.results import in_fours
from lims.sheets.looking import BlockLook, Looked
from lims.sheets.reading import DELIMITERS, ENCODINGS

State, Stage = Import.State, Staging.Stage
SLOW = dt.timedelta(minutes=1)  # a worker that runs has begun by then
SILENT = dt.timedelta(minutes=5)  # one that is at work was heard of by then
NEXT = {
    Import.Kind.SPECIFICATIONS: ("specifications:list", "Specifications"),
    Import.Kind.CUSTOMERS: ("specifications:customer-list", "Customers"),
    Import.Kind.FIGURES: ("methods:list", "Methods"),
    Import.Kind.INSTRUMENTS: ("instruments:list", "Instruments"),
    Import.Kind.SAMPLES: ("bench:list", "Bench"),
}


@dataclass(frozen=True)
class Counted:
    """How many cells have one fate, and where they are listed."""

    word: str
    count: int
    about: str
    address: str


@dataclass(frozen=True)
class TableShown:
    """One table of the file."""

    place: int
    look: BlockLook
    is_left_out: bool
    mapped_count: int
    rows: tuple[str, ...]  # 11 rows of data, 2 rows that continue, ...
    fates: tuple[Counted, ...]


@dataclass(frozen=True)
class Step:
    """One of the steps from a file to what is taken in."""

    words: str
    is_done: bool
    is_now: bool
    address: str = ""


def page(
    import_of: Import,
    look: Looked | None,
    person: Person,
    forms: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """Everything on the page of one file."""
    may = rules.may_bring_in(person, import_of.kind)
    waits = import_of.state == State.RECEIVED
    is_free = waits and look is not None and not words.is_at_work(look)
    given = {"version": import_of.version}
    return {
        "import": import_of,
        "look": look,
        "answer": words.stands(import_of, look),
        "may": may,
        "may_see_cells": may_see_cells(person, import_of),
        "waits": waits,
        "is_free": is_free,
        "fingerprint": in_fours(import_of.sha256),
        "size": words.size_of(import_of.size),
        "becomes": words.BECOMES[Import.Kind(import_of.kind)],
        "next": NEXT.get(Import.Kind(import_of.kind)),
        "came": _came(import_of),
        "drafts": queries.figures_brought_by(import_of),
        "charted": _charted(import_of),
        "may_withdraw": may and _may_be_withdrawn(import_of),
        "reason_form": ReasonForm(),
        "version_form": VersionForm(initial=given),
        "reading_form": ReadingForm(initial=given | as_sent(import_of.reading)),
        **work(look),
        **(_looked(import_of, look) if look else {}),
        **(forms or {}),
    }


def work(look: Looked | None) -> dict[str, Any]:
    """What the program is doing with the file, as far as it tells."""
    if look is None:
        return {"is_at_work": False}
    is_at_work, quiet = words.is_at_work(look), clock.now() - look.changed_at
    return {
        "is_at_work": is_at_work,
        "stage_words": words.STAGES.get(Stage(look.stage), ""),
        "work_words": look.words,
        "done": look.done,
        "total": look.total,
        "is_slow": look.stage == Stage.WAITING and quiet > SLOW,
        "is_silent": is_at_work and look.stage != Stage.WAITING and quiet > SILENT,
    }


def _looked(import_of: Import, look: Looked) -> dict[str, Any]:
    tables = [
        table_shown(import_of, place, it) for place, it in enumerate(look.blocks, 1)
    ]
    found = words.total(look)
    return {
        "tables": tables,
        "steps": steps(import_of, look),
        "brings": words.brings(found, import_of.kind),
        "counts": found,
        "open_count": words.open_questions(look),
        "trouble": look.words if look.stage == Stage.LOOKED_AT else "",
        "how": {
            "encoding": ENCODINGS.get(look.how.get("encoding", ""), ""),
            "delimiter": DELIMITERS.get(look.how.get("delimiter", ""), ""),
        },
    }


def table_shown(import_of: Import, place: int, look: BlockLook) -> TableShown:
    """One table with what was counted in it."""
    meant = [it for it in look.uses.values() if it.get("role") != LEFT_OUT]
    return TableShown(
        place=place,
        look=look,
        is_left_out=look.is_mapped and not meant,
        mapped_count=len(meant),
        rows=rows_in_words(look.counts),
        fates=fates(import_of, place, look.counts),
    )


def rows_in_words(found: Mapping[str, int]) -> tuple[str, ...]:
    """How many rows are what."""
    return tuple(
        words.number_of(count, *said)
        for role, said in words.ROWS.items()
        if (count := found.get(f"rows {role.value}", 0))
    )


def fates(
    import_of: Import, place: int, found: Mapping[str, int]
) -> tuple[Counted, ...]:
    """How many cells have which fate, each with the page that lists them."""
    cells = reverse("imports:cells", args=[import_of.pk])
    return tuple(
        Counted(
            fate.value,
            found.get(f"cells {fate.value}", 0),
            about,
            f"{cells}?{urlencode({'table': place, 'fate': fate.value})}",
        )
        for fate, about in words.FATES.items()
    )


def steps(import_of: Import, look: Looked) -> list[Step]:
    """The way of a file that waits, and how far it has come."""
    if words.is_at_work(look) or look.stage == Stage.FAILED or not look.blocks:
        return []
    mapped = not words.unmapped(look)
    asked = words.open_questions(look)
    told = (
        f"Answer {words.number_of(asked, 'question')}" if asked else "Answer questions"
    )
    columns = reverse("imports:columns", args=[import_of.pk])
    questions = reverse("imports:questions", args=[import_of.pk])
    return [
        Step("Read the file", is_done=True, is_now=False),
        Step("Say what the columns hold", mapped, not mapped, columns),
        Step(
            told,
            mapped and not asked,
            bool(mapped and asked),
            questions if mapped else "",
        ),
        Step("Take it in", is_done=False, is_now=look.is_ready, address="#h-take"),
    ]


def _came(import_of: Import) -> list[tuple[str, int]]:
    """What a file that was taken in came to, in counts."""
    told = {
        "batches with values": "batches",
        "values": "values",
        "values here already": "values that stood here already",
        "cells taken": "cells taken as they stood",
        "cells converted": "cells read by a rule",
        "cells left out": "cells left out",
        "rows duplicate": "rows that repeated another",
        "rows summary": "summary rows",
        "rows held": "rows held back",
    }
    own = {"added", "batches", "lines", "questions"}
    others = {
        name: name
        for name in import_of.counts
        if not name.startswith(("cells ", "rows ")) and name not in own
    }
    return [
        (name, import_of.counts[key])
        for key, name in {**others, **told}.items()
        if import_of.counts.get(key)
    ]


def _charted(import_of: Import) -> list[Product]:
    """The products whose charts show what the file brought."""
    if import_of.state != State.TAKEN_IN:
        return []
    return list(queries.products_of(import_of))


def _may_be_withdrawn(import_of: Import) -> bool:
    is_taken_in = import_of.state == State.TAKEN_IN
    return is_taken_in and import_of.kind in {Import.Kind.HISTORY, Import.Kind.LOG}


def attachment(name: str) -> str:
    """The head by which a browser keeps a file under its own name, whatever signs that has."""
    plain = "".join(
        it if it.isascii() and it.isprintable() and it not in '"\\%' else "_"
        for it in name
    )
    return f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(name, safe='')}"
