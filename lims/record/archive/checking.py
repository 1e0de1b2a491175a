"""Looking at an archive before anything is made of it: its form, its parts, their hashes, its tables."""

import hashlib
import re
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import PurePosixPath
from typing import IO

from lims.record.archive import tables
from lims.record.archive.manifest import (
    ENTRIES,
    FILES,
    LONGEST,
    MANIFEST,
    Manifest,
    read,
)
from lims.record.refusals import WrongMove

PIECE = 1024 * 1024
ENCRYPTED = 0x1  # bit of a zip's header
ANOTHER = "Take another copy of the archive."
_UNFIT = re.compile(r'[\x00-\x1f\x7f\\:*?"<>|]')


@contextmanager
def opened(file: IO[bytes]) -> Iterator[zipfile.ZipFile]:
    """The archive, open for reading. Raises WrongMove for a file that is none, or is damaged."""
    try:
        with zipfile.ZipFile(file) as archive:
            yield archive
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, EOFError) as found:
        raise WrongMove(
            f"The file is no archive, or it is damaged. {ANOTHER}"
        ) from found


def checked(archive: zipfile.ZipFile) -> Manifest:
    """The manifest of an archive of which every part is there, fits its name and is whole. Raises WrongMove."""
    if MANIFEST not in archive.namelist():
        raise WrongMove(
            f"The file holds no {MANIFEST}, so it is no archive of a record. "
            "Choose another file."
        )
    if archive.getinfo(MANIFEST).file_size > LONGEST:
        raise WrongMove(f"The {MANIFEST} is too large to be one. {ANOTHER}")
    manifest = read(archive.read(MANIFEST))
    _check_names(archive, manifest)
    _check_tables(manifest)
    for name in manifest.parts:
        _check_part(archive, manifest, name)
    return manifest


def _check_names(archive: zipfile.ZipFile, manifest: Manifest) -> None:
    there = sorted(archive.namelist())
    if there != sorted([*manifest.parts, MANIFEST]):
        odd = set(there) ^ {*manifest.parts, MANIFEST}
        named = min(odd) if odd else "one of its parts, twice"
        raise WrongMove(
            f"What is in the archive is not what its manifest names: {named}. {ANOTHER}"
        )
    for name in manifest.parts:
        check_name(name)
    if any(it.flag_bits & ENCRYPTED for it in archive.infolist()):
        raise WrongMove("The archive is locked with a password. Unlock it first.")
    if ENTRIES not in manifest.parts:
        raise WrongMove(f"The archive holds no {ENTRIES}. {ANOTHER}")


def check_name(name: str) -> None:
    """Refuse a name that could lead out of the folder it is written to."""
    steps = name.split("/")
    is_inside = not PurePosixPath(name).is_absolute() and not (
        {"", ".", ".."} & set(steps)
    )
    if not is_inside or _UNFIT.search(name) or any(it.strip() != it for it in steps):
        raise WrongMove(
            f"The archive names a part {name!r}, which could be written outside its "
            "folder, so nothing is restored. It was not written by this program."
        )


def _check_tables(manifest: Manifest) -> None:
    """The tables of the archive and of this program have the same columns."""
    ours = {it._meta.label: tables.names(it) for it in tables.archived()}
    theirs = {label: it.columns for label, it in manifest.tables.items()}
    odd = [
        label
        for label in ours.keys() | theirs.keys()
        if ours.get(label) != theirs.get(label)
    ]
    if odd:
        raise WrongMove(
            f"The archive has other columns than this program, in {min(odd)}. Restore it "
            "with the version of the program that wrote it, then migrate to this one."
        )
    for label, table in manifest.tables.items():
        if table.part not in manifest.parts or table.part.startswith(FILES):
            raise WrongMove(f"The archive lacks the rows of {label}. {ANOTHER}")


def _check_part(archive: zipfile.ZipFile, manifest: Manifest, name: str) -> None:
    told, running = manifest.parts[name], hashlib.sha256()
    is_whole = archive.getinfo(name).file_size == told.size
    if is_whole:
        with archive.open(name) as part:
            while piece := part.read(PIECE):
                running.update(piece)
    if not is_whole or running.hexdigest() != told.sha256:
        raise WrongMove(
            f"{name} is not as it was when the archive was made: the archive is damaged "
            f"or was altered. {ANOTHER}"
        )
