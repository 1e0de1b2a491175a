"""Making an archive: every part written once, hashed as it is written."""

import hashlib
import json
import zipfile
from collections.abc import Iterable, Iterator
from typing import IO, Any

from django.core.files.storage import default_storage
from django.db import DEFAULT_DB_ALIAS, models

from lims.record import clock
from lims.record.archive import tables
from lims.record.archive.manifest import (
    ENTRIES,
    FILES,
    MANIFEST,
    README,
    Manifest,
    Part,
    Table,
)
from lims.record.archive.words import README as TEXT
from lims.record.differences import utc_text
from lims.record.models import Entry
from lims.record.still import one_moment
from specs import chain

AT_ONCE = 2000
PIECE = 1024 * 1024
ENTRY = ("seq", "previous", "content", "hash")


class _Archive:
    """The file as it grows: its parts, and the manifest of them."""

    def __init__(self, to: IO[bytes]) -> None:
        self.zip = zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED)
        self.manifest = Manifest(made_at=utc_text(clock.now()))

    def add(self, name: str, pieces: Iterable[bytes]) -> None:
        """Write one part, piece by piece, and note its size and hash."""
        size, running = 0, hashlib.sha256()
        with self.zip.open(self._head(name), "w", force_zip64=True) as part:
            for piece in pieces:
                part.write(piece)
                running.update(piece)
                size += len(piece)
        self.manifest.parts[name] = Part(size, running.hexdigest())

    def close(self) -> Manifest:
        self.zip.writestr(self._head(MANIFEST), self.manifest.as_json())
        self.zip.close()
        return self.manifest

    def _head(self, name: str) -> zipfile.ZipInfo:
        head = zipfile.ZipInfo(name, clock.now().timetuple()[:6])
        head.compress_type = zipfile.ZIP_DEFLATED
        head.external_attr = 0o600 << 16
        return head


def write_archive(to: IO[bytes], *, using: str = DEFAULT_DB_ALIAS) -> Manifest:
    """Write the whole record, as it stands at this moment, to an open file; its manifest."""
    archive = _Archive(to)
    archive.add(README, [TEXT.encode()])
    with one_moment(using):
        archive.add(ENTRIES, _entries(archive.manifest, using))
        for model in tables.archived():
            _add_table(archive, model, using)
        for name in stored_files():
            archive.add(f"{FILES}{name}", _file(name))
    return archive.close()


def _entries(manifest: Manifest, using: str) -> Iterator[bytes]:
    """One entry a line, the oldest first; the manifest learns where the record ends."""
    manifest.entries, manifest.head = 0, chain.FIRST_HEAD
    rows = Entry.objects.using(using).order_by("seq").values_list(*ENTRY)
    for values in rows.iterator(chunk_size=AT_ONCE):
        manifest.entries, manifest.head = values[0], values[-1]
        yield _line(dict(zip(ENTRY, values, strict=True)))


def _add_table(archive: _Archive, model: type[models.Model], using: str) -> None:
    found = Table(tables.part_of(model), 0, tables.names(model))
    archive.manifest.tables[model._meta.label] = found
    archive.add(found.part, _rows(model, found, using))


def _rows(model: type[models.Model], found: Table, using: str) -> Iterator[bytes]:
    fields = tables.columns(model)
    rows = model._base_manager.using(using).order_by("pk")
    for values in rows.values_list(*found.columns).iterator(chunk_size=AT_ONCE):
        found.rows += 1
        yield _line(tables.as_told(values, fields))


def _line(told: dict[str, Any]) -> bytes:
    return json.dumps(told, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def stored_files(folder: str = "") -> Iterator[str]:
    """The name of every stored file, folder by folder."""
    try:
        folders, names = default_storage.listdir(folder)
    except FileNotFoundError:
        return
    yield from (f"{folder}{name}" for name in sorted(names))
    for inner in sorted(folders):
        yield from stored_files(f"{folder}{inner}/")


def _file(name: str) -> Iterator[bytes]:
    with default_storage.open(name) as file:
        while piece := file.read(PIECE):
            yield piece
