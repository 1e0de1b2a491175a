"""The table of results: cells that line up on the decimal mark, rows grouped by their evidence."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from lims.certificates.data import ON_LOT, PERIODIC, PRINT_ORDER, Row, TestedOn
from lims.documents.words import Words, held
from lims.wording.numbers import NUMBER

RATING = re.compile(r"\d[a-z]", re.ASCII)
MOST_DECIMALS = 4  # the stylesheet has room for so many


@dataclass(frozen=True, slots=True)
class Cell:
    """A printed text and the classes that place it in its column."""

    text: str
    kind: str
    span: int = 1


@dataclass(frozen=True, slots=True)
class PrintedRow:
    line: int
    kind: str  # classes of the row
    name: str
    notes: tuple[str, ...]
    method: str
    unit: str
    cells: tuple[Cell, ...]
    verdict: str
    verdict_kind: str
    mark: str  # the evidence said once more, where it is not this lot


@dataclass(frozen=True, slots=True)
class Group:
    """Rows of one evidence; `lead` and `head` make its heading row."""

    lead: str
    head: str
    rows: tuple[PrintedRow, ...]


@dataclass(frozen=True, slots=True)
class Table:
    groups: tuple[Group, ...]
    most: int  # decimals of the longest number: all others leave that room
    kind: str
    mixed: bool  # some rows were not tested on this lot


def table_of(rows: Iterable[Row], words: Words) -> Table:
    """The table as printed, this lot's results first."""
    ordered = sorted(rows, key=lambda row: PRINT_ORDER.index(row.evidence))
    place = {row.line: n for n, row in enumerate(ordered)}
    most = max((decimals(text) for row in ordered for text in _figures(row)), default=0)
    groups = []
    for (evidence, tested_on), members in groupby(
        ordered, key=lambda row: (row.evidence, row.tested_on)
    ):
        printed = tuple(_printed(row, place[row.line], words) for row in members)
        if evidence == ON_LOT or tested_on is None:
            groups.append(Group("", "", printed))
        else:
            lead = words["periodic_head" if evidence == PERIODIC else "batch_head"]
            groups.append(Group(lead, origin(tested_on, words), printed))
    verdicts = {row.verdict for row in ordered}
    kinds = (
        f"most-{most}",
        "wide-verdict" if verdicts & {"not tested", "not evaluated"} else "",
        "with-not-met" if "not met" in verdicts else "",
    )
    return Table(
        groups=tuple(groups),
        most=most,
        kind=" ".join(filter(None, kinds)),
        mixed=any(row.evidence != ON_LOT for row in ordered),
    )


def decimals(text: str) -> int:
    """How many decimals a number shows; none for words, or when they are too many to line up."""
    if not NUMBER.fullmatch(text):
        return 0
    found = len(text.replace(",", ".").partition(".")[2])
    return found if found <= MOST_DECIMALS else 0


def cell(text: str | None, words: Words, *, extra: str = "", span: int = 1) -> Cell:
    """Numbers stand by their decimals, ratings on their digit, words from the left."""
    if not text:
        return Cell(words["none"], f"n d0 {extra}".strip(), span)
    if NUMBER.fullmatch(text):
        kind = f"n d{decimals(text)}"
    elif RATING.fullmatch(text):
        kind = "n rating"
    else:
        kind = "words"
    return Cell(held(words.figure(text)), f"{kind} {extra}".strip(), span)


def origin(tested: TestedOn, words: Words) -> str:
    """``batch Q1-26-0310, 12 to 16 January 2026; valid until 12 July 2026``."""
    lot = f", {words['lot']} {tested.lot}" if tested.lot else ""
    parts = [f"{words['batch']} {tested.batch}{lot}"]
    if tested.first_day:
        parts.append(words.days(tested.first_day, tested.last_day))
    if tested.by:
        parts.append(tested.by)
    valid = _validity(tested, words)
    return ", ".join(parts) + (words["then"] + valid if valid else "")


def _validity(tested: TestedOn, words: Words) -> str:
    day = words.day(tested.valid_until) if tested.valid_until else ""
    count = tested.valid_batches or 0
    if day and count:
        return words.counted("valid_both", count, day=day, n=str(count))
    if day:
        return words.say("valid_until", day=day)
    return words.counted("valid_batches", count, n=str(count)) if count else ""


def _figures(row: Row) -> tuple[str, ...]:
    limits = () if row.must else (row.lower or "", row.upper or "")
    return (*limits, row.result)


def _printed(row: Row, place: int, words: Words) -> PrintedRow:
    name = ", ".join(part for part in (row.characteristic, row.conditions) if part)
    kinds = (
        row.verdict.replace(" ", "-") if row.verdict != "met" else "",
        "ruled" if place % 5 == 0 else "",
    )
    if row.must:
        limits = [cell(row.must, words, extra="must", span=2)]
    else:
        limits = [cell(row.lower, words), cell(row.upper, words)]
    return PrintedRow(
        line=row.line,
        kind=" ".join(kind for kind in kinds if kind),
        name=held(name),
        notes=(held(row.note),) if row.note else (),
        method=words.method(row.method),
        unit=words.unit(row.unit),
        cells=(*limits, cell(row.result, words, extra="result")),
        verdict=words[row.verdict or "report_only"],
        verdict_kind=row.verdict.replace(" ", "-") or "report-only",
        mark=_mark(row, words),
    )


def _mark(row: Row, words: Words) -> str:
    if row.evidence == ON_LOT:
        return ""
    if row.evidence == PERIODIC:
        return words["periodic"]
    lot = row.tested_on.lot if row.tested_on else ""
    return f"{words['lot']} {lot}" if lot else words["on_this_batch"]
