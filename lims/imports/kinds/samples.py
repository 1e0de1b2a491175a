"""Samples to be tested: of batches and fill lots that are registered, each with the tests that it is asked for."""

import datetime as dt
from collections.abc import Mapping, Sequence
from functools import partial

from lims.batches.models import Batch, FillLot, Sample
from lims.batches.queries import lots
from lims.bench import asked
from lims.bench.actions import samples
from lims.imports.kinds.keeping import Mapped, check_form
from lims.imports.kinds.refusing import in_row, objection
from lims.imports.models import Import
from lims.people.models import Person
from lims.people.queries import site_zone
from lims.record.filled import check_filled
from lims.record.refusals import BadInput, Refusal
from specs.tables.checked import Checked, Row
from specs.tables.forms.objections import LEAVE_ROWS, Objection
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice
from specs.tables.sheet import Sheet

FIRST, SECOND = "first", "second"
Of = Mapping[str, Batch | FillLot]


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, held against the batches and fill lots that stand here."""
    return check_form(
        Import.Kind.SAMPLES,
        sheet,
        block,
        mapping,
        answers,
        objects=partial(against, of=_of()),
    )


def _of() -> Of:
    batches = Batch.objects.select_related("product")
    return {it.number: it for it in batches} | {it.number: it for it in lots()}


def against(rows: Sequence[Row], *, of: Of) -> Sequence[Objection]:
    """What the rules of sampling hold against each row."""
    found: list[Objection] = []
    seen: dict[tuple[str, ...], int] = {}
    for row in rows:
        if not {"of", "place", "taken_at"} <= set(row.values):
            continue
        first = seen.setdefault(_said(row), row.row)
        if first != row.row:
            found.append(_twice(row, first))
            continue
        found += _against(row, of)
    return found


def _said(row: Row) -> tuple[str, ...]:
    return tuple(row.values.get(it, "") for it in ("of", "place", "detail", "taken_at"))


def _twice(row: Row, first: int) -> Objection:
    return Objection(
        row.row,
        "of",
        f"Row {first} tells of the same sample: leave this one out, or say in the detail what "
        "tells them apart.",
        matter="stands twice",
        proposed="rows",
    )


def _against(row: Row, of: Of) -> list[Objection]:
    try:
        moments = _moments(row.values["taken_at"])
        if len(moments) == 2 and moments[0] != moments[1]:
            return [_which_hour(row, moments)]
        _check(row, of, moments[0])
    except Refusal as refusal:
        return [objection(row.row, refusal, "of")]
    return []


def _check(row: Row, of: Of, taken_at: dt.datetime) -> None:
    batch, lot = _batch_and_lot(row, of)
    place = row.values["place"]
    samples.check_taken(fill_lot=lot, place=place, taken_at=taken_at)
    if lot is None:
        asked.asked_of_kettle(batch.product)
    texts = {it: row.values.get(it, "") for it in ("detail", "taken_by")}
    besides = {"number", "taken_by"} - ({"taken_by"} if texts["taken_by"] else set())
    check_filled(Sample(place=place, **texts), besides=besides)


def _batch_and_lot(row: Row, of: Of) -> tuple[Batch, FillLot | None]:
    found = of[row.values["of"]]
    return (found, None) if isinstance(found, Batch) else (found.batch, found)


def _moments(text: str) -> list[dt.datetime]:
    """The moments that a time of the laboratory's clock can mean: one, or two in the hour that is counted twice.

    Raises BadInput for a time that the clock never showed.
    """
    stated = dt.datetime.fromisoformat(text)
    if stated.tzinfo is not None:
        return [stated]
    zone = site_zone()
    found = [stated.replace(tzinfo=zone, fold=it).astimezone(dt.UTC) for it in (0, 1)]
    shown = found[0].astimezone(zone).replace(tzinfo=None)
    if shown != stated:
        raise BadInput(
            f"The clock never showed {text}: it was set forward. Write the time that it showed.",
            field="taken_at",
        )
    return found


def _which_hour(row: Row, moments: Sequence[dt.datetime]) -> Objection:
    return Objection(
        row.row,
        "taken_at",
        "The clock was set back that night and showed this time twice. Which is meant?",
        matter="hour twice",
        choices=(
            Choice(FIRST, "The first time, before the clock was set back"),
            Choice(SECOND, "The second time"),
            LEAVE_ROWS,
        ),
        is_refusal=False,
        takes_text=False,
        sets={FIRST: str(moments[0]), SECOND: str(moments[1])},
    )


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Receive each sample that is not here yet."""
    of = _of()
    counts = {"added": 0, "samples here already": 0}
    for row in table.rows:
        with in_row(row.row):
            taken_at = _moments(row.values["taken_at"])[0]
            _check(row, of, taken_at)
            batch, lot = _batch_and_lot(row, of)
            if _is_here(row, batch, lot, taken_at):
                counts["samples here already"] += 1
                continue
            samples.received(
                batch=batch,
                fill_lot=lot,
                place=row.values["place"],
                detail=row.values.get("detail", ""),
                taken_at=taken_at,
                taken_by=row.values.get("taken_by", ""),
                by=by,
            )
            counts["added"] += 1
    return counts


def _is_here(
    row: Row, batch: Batch, lot: FillLot | None, taken_at: dt.datetime
) -> bool:
    return Sample.objects.filter(
        batch=batch,
        fill_lot=lot,
        place=row.values["place"],
        detail=row.values.get("detail", ""),
        taken_at=taken_at,
    ).exists()
