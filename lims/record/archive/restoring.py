"""Making an empty database of an archive again: every row as it was, under all triggers, or nothing."""

import json
import zipfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import islice
from typing import IO, Any

from django.core.exceptions import ValidationError
from django.core.files import File
from django.core.files.storage import default_storage
from django.db import (
    DEFAULT_DB_ALIAS,
    DatabaseError,
    connections,
    models,
    transaction,
)

from lims.record import clock, doors, triggers
from lims.record.archive import tables
from lims.record.archive.checking import ANOTHER, checked, opened
from lims.record.archive.counting import Highest, go_on_counting
from lims.record.archive.manifest import ENTRIES, FILES, Manifest
from lims.record.carrying import Thing
from lims.record.differences import Change
from lims.record.models import Entry
from lims.record.opening import OpenEntry, columns_of
from lims.record.refusals import WrongMove
from lims.record.verify import COLUMNS, verify
from specs import chain

AT_ONCE = 1000
LONGEST_LINE = 64 * 1024 * 1024  # bytes; a row of a table is far shorter
VERB = "record_restored"
Known = tuple[int, str]  # the number of an entry and how its head begins


def restore(file: IO[bytes], *, known: Known | None = None) -> Manifest:
    """Load an archive into the empty database and its files into the storage; what it held.

    `known` is an entry and its head as they were noted outside the house. Raises WrongMove
    and leaves everything as it was when the database is not empty, the archive is not
    whole, its record does not hold, or the head is another.
    """
    with opened(file) as archive:
        manifest = checked(archive)
        with _written_back() as keep, transaction.atomic(durable=True):
            _load(archive, manifest, known, keep)
        triggers.look_again()
    return manifest


def _load(
    archive: zipfile.ZipFile,
    manifest: Manifest,
    known: Known | None,
    keep: Callable[[str, IO[bytes]], None],
) -> None:
    """Rows, entries and files under the open gate, which is closed again before anything is looked at."""
    using = DEFAULT_DB_ALIAS
    doors.lock_tail(using)
    triggers.demand_all(using)
    _check_empty()
    doors.open_gate(using)
    highest = Highest()
    try:
        for model in tables.archived():
            _load_table(archive, manifest, model)
        _load_entries(archive, manifest, known, highest)
        connections[using].check_constraints()
    except (DatabaseError, OverflowError, ValueError) as refused:
        raise WrongMove(
            f"The database refuses a row of the archive ({refused}), so nothing is "
            f"restored. {ANOTHER}"
        ) from refused
    _tell(manifest, using)
    doors.close_gate(using)
    go_on_counting(highest, using)
    for part in manifest.files:
        with archive.open(part) as content:
            keep(part.removeprefix(FILES), content)
    _check_holds()


def _check_empty() -> None:
    every: list[type[models.Model]] = [Entry, *tables.archived()]
    for model in every:
        if model._base_manager.exists():
            raise WrongMove(
                f"The database holds rows already ({model._meta.verbose_name_plural}). "
                "A record is restored only into an empty one: make a new database, run "
                "`manage.py migrate` on it, and restore there."
            )


def _load_table(
    archive: zipfile.ZipFile, manifest: Manifest, model: type[models.Model]
) -> None:
    table, count = manifest.tables[model._meta.label], 0
    for some in _by_many(_lines(archive, table.part)):
        rows = [_row(told, model, table.part) for told in some]
        model._base_manager.bulk_create(rows)
        count += len(rows)
    if count != table.rows:
        raise WrongMove(
            f"{table.part} has {count} rows, not {table.rows} as the manifest says. "
            f"{ANOTHER}"
        )


def _row(told: dict[str, Any], model: type[models.Model], part: str) -> models.Model:
    try:
        return tables.as_row(told, model)
    except (KeyError, TypeError, ValueError, ValidationError) as found:
        raise WrongMove(f"A row of {part} cannot be read. {ANOTHER}") from found


def _load_entries(
    archive: zipfile.ZipFile, manifest: Manifest, known: Known | None, highest: Highest
) -> None:
    """The record itself, the chain computed anew from its first entry."""
    seq, head = 0, chain.FIRST_HEAD
    asked, begins = known or (0, "")
    is_known = known is None
    for some in _by_many(_lines(archive, ENTRIES)):
        rows = []
        for told in some:
            seq, head = seq + 1, _next(told, seq + 1, head)
            is_known |= seq == asked and head.startswith(begins)
            rows.append(_entry(told, highest))
        Entry._base_manager.bulk_create(rows)
    if (seq, head) != (manifest.entries, manifest.head):
        raise WrongMove(
            f"The record ends at entry {seq} with the head {head[:8]}, not where the "
            f"manifest says. {ANOTHER}"
        )
    if not is_known:
        raise WrongMove(
            f"Entry {asked} of the archive has not the head {begins[:8]} that you "
            "gave: it is not the record of which that head was noted, or it was altered "
            "since. Nothing is restored."
        )


def _next(told: dict[str, Any], seq: int, head: str) -> str:
    """The head after an entry, provided that it follows from the one before."""
    try:
        follows = chain.next_head(head, told["content"])
        holds = (told["seq"], told["previous"], told["hash"]) == (seq, head, follows)
    except (KeyError, TypeError, AttributeError, chain.ChainRefused):
        holds = False
    if not holds:
        raise WrongMove(
            f"Entry {seq} of the archive does not follow from the entries before it: the "
            "record was altered. Nothing is restored."
        )
    return follows


def _entry(told: dict[str, Any], highest: Highest) -> Entry:
    """An entry with the columns that its content tells."""
    try:
        content = json.loads(told["content"])
        for change in content["changes"]:
            told_of = Change(**change)
            highest.note(told_of.model, told_of.id)
        columns = {name: content[name] for name in COLUMNS}
    except (KeyError, TypeError, ValueError) as found:
        raise WrongMove(
            f"Entry {told['seq']} of the archive does not say what an entry says. {ANOTHER}"
        ) from found
    return Entry(
        **columns,
        content=told["content"],
        previous=told["previous"],
        hash=told["hash"],
    )


def _tell(manifest: Manifest, using: str) -> None:
    """The entry that tells of it, chained to the last one restored."""
    name = f"record as of {manifest.made_at}"
    it = OpenEntry(
        by=None,
        verb=VERB,
        about=Thing("archive", manifest.made_at, name),
        reason="",
        note=f"{manifest.entries} entries, head {manifest.head}",
    )
    it.at = clock.now()
    it.previous_seq, it.previous_head = manifest.entries, manifest.head
    Entry._base_manager.using(using).bulk_create([Entry(**columns_of(it, []))])


def _check_holds() -> None:
    report = verify()
    if report.first_wrong is not None:
        raise WrongMove(
            f"The record of the archive does not hold: {report.first_wrong}. Nothing is "
            "restored."
        )


@contextmanager
def _written_back() -> Iterator[Callable[[str, IO[bytes]], None]]:
    """What keeps a file under its own name; when the block fails, what was kept goes again."""
    kept: list[str] = []

    def keep(name: str, content: IO[bytes]) -> None:
        if default_storage.exists(name):
            raise WrongMove(
                f"The storage holds a file {name} already. Empty the folder that "
                "KETTLEMARK_FILES names, or name another."
            )
        kept.append(default_storage.save(name, File(content, name)))

    try:
        yield keep
    except BaseException:
        for name in kept:
            default_storage.delete(name)
        raise


def _lines(archive: zipfile.ZipFile, part: str) -> Iterator[dict[str, Any]]:
    with archive.open(part) as lines:
        pieces = iter(lambda: lines.readline(LONGEST_LINE + 1), b"")
        for number, line in enumerate(pieces, start=1):
            try:
                told = json.loads(line) if len(line) <= LONGEST_LINE else None
            except (ValueError, RecursionError):
                told = None
            if not isinstance(told, dict):
                raise WrongMove(f"Line {number} of {part} cannot be read. {ANOTHER}")
            yield told


def _by_many(lines: Iterable[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    rest = iter(lines)
    while some := list(islice(rest, AT_ONCE)):
        yield some
