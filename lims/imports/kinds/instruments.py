"""Instruments and their checks: new ones are added, checks that are not here yet are recorded."""

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from lims.imports.kinds.keeping import Mapped, check_form
from lims.imports.kinds.refusing import differs, in_row, objection
from lims.imports.models import Import
from lims.instruments import actions
from lims.instruments.models import Check, Instrument
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.people.permissions import check as check_permission
from lims.record.refusals import BadInput, Refusal
from specs.tables.checked import Checked, Row
from specs.tables.forms.list_of_forms import NO, YES
from specs.tables.forms.objections import LEAVE_ROWS, Objection
from specs.tables.layout import Block
from specs.tables.saying import Answers, Choice
from specs.tables.sheet import Sheet

OF_CHECK = ("done_on", "due_on", "found", "fit")
OF_INSTRUMENT = ("kind", "note")
Kept = Mapping[str, Instrument]


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, held against the instruments and checks that stand here."""
    objects = partial(against, kept=_kept(), done=_done())
    return check_form(
        Import.Kind.INSTRUMENTS, sheet, block, mapping, answers, objects=objects
    )


def _kept() -> Kept:
    return {it.number: it for it in Instrument.objects.all()}


def _done() -> set[tuple[str, str, str]]:
    """The checks that stand here: instrument, day and what was found."""
    rows = Check.objects.values_list("instrument__number", "done_on", "found")
    return {(number, day.isoformat(), found) for number, day, found in rows}


def against(
    rows: Sequence[Row], *, kept: Kept, done: set[tuple[str, str, str]]
) -> Sequence[Objection]:
    """What the laboratory's rules hold against instruments and their checks."""
    found: list[Objection] = []
    for number, some in _by_number(rows).items():
        here = kept.get(number)
        if here is None:
            found += _against_new(number, some)
        else:
            found += [it for row in some for it in _differs(row, here)]
        for row in some:
            found += _against_check(row, here or Instrument(number=number), done)
    return found


def _by_number(rows: Sequence[Row]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in rows:
        if row.values.get("number"):
            found.setdefault(row.values["number"], []).append(row)
    return found


def _against_new(number: str, rows: Sequence[Row]) -> Iterator[Objection]:
    try:
        _new(number, rows)
    except BadInput as refusal:
        at = next((it.row for it in rows if it.values.get(refusal.field)), rows[0].row)
        yield objection(at, refusal, "number")


def _new(number: str, rows: Sequence[Row]) -> Instrument:
    """The instrument that rows describe. Raises BadInput naming the form's column."""
    said = {
        key: next((it.values[key] for it in rows if it.values.get(key)), "")
        for key in OF_INSTRUMENT
    }
    if not said["kind"]:
        raise BadInput(
            f"{number} is a new instrument: write its kind in one of its rows, or correct "
            "its number.",
            field="kind",
        )
    return actions.drawn_up(number=number, **said)


def _differs(row: Row, kept: Instrument) -> Iterator[Objection]:
    for key in OF_INSTRUMENT:
        told, stands = row.values.get(key), str(getattr(kept, key))
        if told and told != stands:
            yield differs(row.row, key, f"Instrument {kept}", stands, told)


def _has_check(row: Row) -> bool:
    return any(row.values.get(key) for key in OF_CHECK)


def _against_check(
    row: Row, instrument: Instrument, done: set[tuple[str, str, str]]
) -> Iterator[Objection]:
    if not _has_check(row):
        return
    if not row.values.get("fit"):
        yield _asks_fit(row)
        return
    if _place(row) in done:
        return  # nothing of it is added
    try:
        _check_of(row, instrument, None)
    except Refusal as refusal:
        yield objection(row.row, refusal, "number", {"is_fit": "fit"})


def _asks_fit(row: Row) -> Objection:
    return Objection(
        row.row,
        "fit",
        "Was the instrument found fit for use?",
        matter="fit",
        choices=(
            Choice(YES, "Fit in all these rows"),
            Choice(NO, "Unfit in all these rows"),
            LEAVE_ROWS,
        ),
        is_refusal=False,
        takes_text=True,
    )


def _place(row: Row) -> tuple[str, str, str]:
    return (
        row.values["number"],
        row.values.get("done_on", ""),
        row.values.get("found", ""),
    )


def _check_of(row: Row, instrument: Instrument, by: Person | None) -> Check:
    if not row.values.get("done_on"):
        raise BadInput("Write the day on which it was checked.", field="done_on")
    due = row.values.get("due_on")
    return actions.check_of(
        instrument,
        done_on=dt.date.fromisoformat(row.values["done_on"]),
        due_on=dt.date.fromisoformat(due) if due else None,
        found=row.values.get("found", ""),
        is_fit=row.values.get("fit") == YES,
        by=by,
    )


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Add the instruments that are new and the checks that are not here yet, the oldest first.

    Raises NotAllowed where checks are told by who may not record them.
    """
    kept, done = dict(_kept()), _done()
    counts = {"added": 0, "instruments": 0, "checks": 0, "checks here already": 0}
    if any(_has_check(row) for row in table.rows):
        check_permission(by, Permission.CHECK_INSTRUMENTS)
    for number, rows in _by_number(table.rows).items():
        if number not in kept:
            with in_row(rows[0].row):
                kept[number] = _new(number, rows)
                kept[number].save()
            counts["instruments"] += 1
        checks = [row for row in rows if _has_check(row)]
        for row in sorted(checks, key=lambda it: it.values.get("done_on", "")):
            if _place(row) in done:
                counts["checks here already"] += 1
                continue
            with in_row(row.row):
                actions.follow(kept[number], _check_of(row, kept[number], by))
            done.add(_place(row))
            counts["checks"] += 1
    counts["added"] = counts["instruments"] + counts["checks"]
    return counts
