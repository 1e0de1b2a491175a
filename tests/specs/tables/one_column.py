"""A table with one column of results, and what comes of a look at it."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from specs.tables.checked import Checked
from specs.tables.checking import checked
from specs.tables.known import Known, Measured, Role, Use
from specs.tables.saying import Answers, Question, Said
from specs.tables.sheet import EMPTY, TEXT, Column, Merged, Sheet
from tests.specs.tables.pen_book import KNOWN, block_of

FIRST = 2  # row of the first result
LETTER = "D"


def known_with(*measured: Measured) -> Known:
    """What is known, with further characteristics."""
    more = {it.code: it for it in measured}
    return replace(KNOWN, characteristics={**KNOWN.characteristics, **more})


def table(
    texts: Sequence[str],
    *,
    kinds: str = "",
    remarks: Sequence[str] = (),
    merged: Sequence[Merged] = (),
    notes: Mapping[str, str] | None = None,
    batches: Sequence[str] = (),
    days: Sequence[str] = (),
    products: Sequence[str] = (),
) -> Sheet:
    """A sheet of batch, date, product, one result, remark: a row each text."""
    count = len(texts)
    held = {
        "A": [*batches] or [f"Q1-25-{place:04}" for place in range(1, count + 1)],
        "B": [*days] or ["2025-12-03"] * count,
        "C": [*products] or ["LX2"] * count,
        "D": [*texts],
        "E": [*remarks] or [""] * count,
    }
    heads = {"A": "Batch", "B": "Date", "C": "Product", "D": "Result", "E": "Remark"}
    columns = []
    for letter, column in held.items():
        signs = "".join(TEXT if text else EMPTY for text in column)
        signs = kinds if kinds and letter == LETTER else signs
        columns.append(Column(letter, [heads[letter], *column], TEXT + signs))
    return Sheet("Sheet1", tuple(columns), tuple(merged), notes=notes or {})


def look(
    sheet: Sheet,
    code: str = "worked-penetration",
    *,
    unit: str = "",
    choices: Mapping[str, str] | None = None,
    instead: Mapping[str, str] | None = None,
    known: Known = KNOWN,
    left: Sequence[str] = (),
) -> Checked:
    """What comes of a look at it; `left` are columns that are left out."""
    uses = {
        "A": Use(Role.BATCH),
        "B": Use(Role.DAY),
        "C": Use(Role.PRODUCT),
        "D": Use(Role.RESULT, code, unit),
        "E": Use(Role.REMARK),
    }
    uses |= {letter: Use(Role.LEFT_OUT) for letter in left}
    answers = Answers(choices or {}, instead or {})
    return checked(sheet, block_of(sheet), uses, answers, known)


def said(found: Checked, place: int = 0) -> Said:
    """What becomes of one result, counted from 0."""
    return found.at(LETTER, FIRST + place)


def question(found: Checked, key: str) -> Question:
    """A question that waits."""
    return next(it for it in found.questions if it.key == key)


def keys(found: Checked) -> list[str]:
    """What is asked."""
    return [it.key for it in found.questions]
