"""A look at a file that was brought in: its tables, what their columns are taken for, what is asked. Kept beside the import until the file is taken in or left."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from functools import lru_cache
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import Any

from lims.imports import kinds, knowing, layouts
from lims.imports.actions import content_of
from lims.imports.models import Import, Staging
from lims.record.clock import now
from lims.record.queries import tail
from lims.sheets import reading
from lims.sheets.asked import AskedCell, asked_cells
from specs.tables import checking
from specs.tables.checked import Checked
from specs.tables.finding import headings
from specs.tables.finding.tables import blocks_of
from specs.tables.known import Known, Role, Use
from specs.tables.layout import Block
from specs.tables.rows import roles
from specs.tables.saying import Answers, Choice, Question
from specs.tables.sheet import Sheet

Uses = Mapping[str, Mapping[str, Any]]  # letter -> role, characteristic, unit
Tell = Callable[[str, int, int], None]  # words, done, total
KEPT = 4  # looks in memory
MOST_TABLES = 40


@dataclass(frozen=True)
class BlockLook:
    """One table of the file as it was last looked at."""

    block: Block
    uses: Uses
    is_mapped: bool
    from_memory: bool  # proposed as the same layout was mapped before
    samples: Mapping[str, tuple[str, ...]]  # the first texts of each column
    counts: Mapping[str, int]
    questions: tuple[Question, ...]
    answered: tuple[Question, ...]
    cells: Mapping[str, AskedCell]  # those that questions name
    titles: tuple[str, ...] = ()  # what stands above the heads
    notes: tuple[str, ...] = ()  # what a person should know of its rows

    @property
    def is_ready(self) -> bool:
        return self.is_mapped and not self.questions


@dataclass(frozen=True)
class Looked:
    """What is known of a file: where the look stands, its sheets and tables."""

    stage: str
    done: int
    total: int
    words: str
    changed_at: Any
    how: Mapping[str, str]  # encoding and delimiter that were found
    notes: tuple[str, ...]
    sheets: tuple[tuple[str, int, int], ...]  # name, rows, columns
    blocks: tuple[BlockLook, ...]

    @property
    def is_ready(self) -> bool:
        """Whether all is mapped and answered, and something would be taken in."""
        lines = sum(it.counts.get("lines", 0) for it in self.blocks)
        return bool(lines) and all(it.is_ready for it in self.blocks)


def looked(import_of: Import) -> Looked | None:
    """The last look at a file that waits; None once it was taken in, left or refused."""
    row = Staging.objects.filter(import_of=import_of).defer("parsed").first()
    return staged(row) if row else None


def staged(row: Staging) -> Looked:
    """A look as it was kept."""
    told = row.outcome
    return Looked(
        stage=row.stage,
        done=row.done,
        total=row.total,
        words=row.words,
        changed_at=row.changed_at,
        how=told.get("how", {}),
        notes=tuple(told.get("notes", ())),
        sheets=tuple((it[0], it[1], it[2]) for it in told.get("sheets", ())),
        blocks=tuple(_block_look(it) for it in told.get("blocks", ())),
    )


def checked(import_of: Import, block_key: str) -> Checked:
    """Every cell of one table, looked at anew; raises KeyError for a table that is not there."""
    tables = {it.block.key: it for it in tables_of(import_of)}
    return tables[block_key]


def sheet_of(import_of: Import, block: Block) -> Sheet:
    """The sheet of a table as it arrived."""
    return next(it for it in _workbook(import_of).sheets if it.name == block.sheet)


def tables_of(import_of: Import) -> tuple[Checked, ...]:
    """Every mapped table of a file that waits, checked with the answers given so far. Remembered until the record moves on: whatever the check goes by has an entry."""
    return _tables(import_of.pk, tail().head)


def tables_anew(pk: int) -> tuple[Checked, ...]:
    """The same, looked at anew whatever was remembered."""
    import_of = Import.objects.get(pk=pk)
    workbook = _workbook(import_of)
    return tuple(_checked(import_of, workbook, _silent))


@lru_cache(maxsize=KEPT)
def _tables(pk: int, _head: str) -> tuple[Checked, ...]:
    return tables_anew(pk)


def look(import_of: Import, tell: Tell | None = None) -> None:
    """Read the file if it was not read yet, find its tables, check those that are mapped; what was found stands in the staging."""
    tell = tell or _silent
    tell("reading the file", 0, 0)
    workbook = _workbook(import_of)
    blocks = _blocks(workbook)
    tables = {it.block.key: it for it in _checked(import_of, workbook, tell)}
    known = knowing.known()
    sheets = {it.name: it for it in workbook.sheets}
    outcome = {
        "how": {
            "encoding": workbook.how.encoding,
            "delimiter": workbook.how.delimiter,
        },
        "notes": list(workbook.notes),
        "sheets": [[it.name, it.height, len(it.columns)] for it in workbook.sheets],
        "blocks": [
            _told(import_of, block, sheets[block.sheet], tables.get(block.key), known)
            for block in blocks
        ],
    }
    Staging.objects.filter(import_of=import_of).update(
        stage=Staging.Stage.LOOKED_AT,
        words="",
        outcome=outcome,
        looked_at_version=import_of.version,
        changed_at=now(),
    )


def _silent(words: str, done: int, total: int) -> None:
    """Nobody waits for news."""


def _workbook(import_of: Import) -> reading.Workbook:
    """The file's sheets, read once and kept packed."""
    kept = Staging.objects.filter(import_of=import_of).values_list("parsed", flat=True)
    packed = kept.first()
    if packed is not None:
        return reading.unpacked(bytes(packed))
    workbook = _read(import_of)
    Staging.objects.filter(import_of=import_of).update(parsed=reading.packed(workbook))
    return workbook


def _read(import_of: Import) -> reading.Workbook:
    """The kept file, read in a process of its own."""
    content = content_of(import_of)
    with NamedTemporaryFile() as file:
        file.write(content)
        file.flush()
        how = reading.How(**import_of.reading)
        return reading.read_limited(Path(file.name), import_of.name, how)


def _blocks(workbook: reading.Workbook) -> list[Block]:
    found = [block for sheet in workbook.sheets for block in blocks_of(sheet)]
    if len(found) > MOST_TABLES:
        raise reading.FileRefused(
            f"The file holds {len(found)} tables, more than the {MOST_TABLES} that a "
            "person can be asked about: bring its sheets in one by one, each with one "
            "head."
        )
    return found


def _checked(
    import_of: Import, workbook: reading.Workbook, tell: Tell
) -> list[Checked]:
    known = knowing.known()
    found = []
    blocks = [it for it in _blocks(workbook) if it.key in import_of.mapping]
    sheets = {it.name: it for it in workbook.sheets}
    for place, block in enumerate(blocks):
        tell(f"checking {block.key}", place, len(blocks))
        uses = import_of.mapping[block.key]
        if all(it.get("role") == Role.LEFT_OUT for it in uses.values()):
            continue
        found.append(_check(import_of, sheets[block.sheet], block, uses, known))
    return found


def _check(
    import_of: Import, sheet: Any, block: Block, uses: Uses, known: Known
) -> Checked:
    answers = answers_of(import_of, block)
    if import_of.kind != Import.Kind.HISTORY:
        return kinds.check(import_of.kind, sheet, block, uses, answers)
    return checking.checked(sheet, block, used(uses), answers, known)


def used(uses: Uses) -> dict[str, Use]:
    """The stored uses of a table of results as the check takes them."""
    return {
        letter: Use(Role(it["role"]), it.get("characteristic", ""), it.get("unit", ""))
        for letter, it in uses.items()
    }


def answers_of(import_of: Import, block: Block) -> Answers:
    """What was answered about a table: now, and before where it holds again."""
    said = import_of.answers.get(block.key, {})
    memory = layouts.known(block.fingerprint, import_of.kind)
    again: dict[str, str] = {}
    if memory is not None and memory.uses == import_of.mapping.get(block.key):
        again = memory.choices
    return Answers(
        choices={**again, **said.get("choices", {})}, instead=said.get("instead", {})
    )


def _told(
    import_of: Import, block: Block, sheet: Any, table: Checked | None, known: Known
) -> dict[str, Any]:
    uses, from_memory = _uses(import_of, block, sheet, known)
    is_mapped = block.key in import_of.mapping
    return {
        "block": asdict(block),
        "uses": uses,
        "is_mapped": is_mapped,
        "from_memory": from_memory,
        "samples": {letter: _samples(sheet, block, letter) for letter in block.letters},
        "counts": table.counts if table else {},
        "questions": [asdict(it) for it in table.questions] if table else [],
        "answered": [asdict(it) for it in table.answered] if table else [],
        "cells": asked_cells(sheet, table) if table else {},
        "notes": list(roles.notes(block, sheet)),
        "titles": [" ".join(filter(None, sheet.row(row))) for row in block.titles],
    }


def _uses(
    import_of: Import, block: Block, sheet: Any, known: Known
) -> tuple[dict[str, Any], bool]:
    """As mapped, else as the same layout was mapped before, else as the heads say."""
    mapped = import_of.mapping.get(block.key)
    if mapped is not None:
        return mapped, False
    memory = layouts.known(block.fingerprint, import_of.kind)
    if memory is not None:
        return memory.uses, True
    if import_of.kind != Import.Kind.HISTORY:
        return dict(kinds.proposed(import_of.kind, block)), False
    found = headings.proposed(block, sheet, known)
    return {letter: asdict(use) for letter, use in found.items()}, False


def _samples(sheet: Any, block: Block, letter: str, most: int = 4) -> Sequence[str]:
    first_rows = range(block.first, min(block.last, block.first + 40) + 1)
    texts = (sheet.text(letter, row) for row in first_rows)
    return list(dict.fromkeys(text for text in texts if text))[:most]


def _block_look(told: dict[str, Any]) -> BlockLook:
    block = told["block"]
    tuples = {key: tuple(block[key]) for key in ("titles", "heads", "letters")}
    return BlockLook(
        block=Block(**{**block, **tuples}),
        uses=told["uses"],
        is_mapped=told["is_mapped"],
        from_memory=told["from_memory"],
        samples={key: tuple(some) for key, some in told["samples"].items()},
        counts=told["counts"],
        questions=tuple(_question(it) for it in told["questions"]),
        answered=tuple(_question(it) for it in told["answered"]),
        cells={key: AskedCell(*it) for key, it in told["cells"].items()},
        titles=tuple(told["titles"]),
        notes=tuple(told.get("notes", ())),
    )


def _question(told: dict[str, Any]) -> Question:
    choices = tuple(Choice(**it) for it in told["choices"])
    return Question(**{**told, "choices": choices, "cells": tuple(told["cells"])})
