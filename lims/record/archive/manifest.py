"""The manifest of an archive: what is in it, how many rows, the head of the record, and the hash of each part."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any, NamedTuple

from lims.record.refusals import WrongMove

FORMAT = 1
MANIFEST, README, ENTRIES = "manifest.json", "README.txt", "entries.jsonl"
FILES = "files/"
LONGEST = 64 * 1024 * 1024  # bytes of a manifest; a longer one is none


class Part(NamedTuple):
    """The size in bytes and the SHA-256 of one part."""

    size: int
    sha256: str


@dataclass
class Table:
    """One table: where its rows stand, how many there are, in which columns."""

    part: str
    rows: int
    columns: list[str]


@dataclass
class Manifest:
    """What an archive says that it holds."""

    made_at: str
    entries: int = 0
    head: str = ""
    tables: dict[str, Table] = field(default_factory=dict)
    parts: dict[str, Part] = field(default_factory=dict)
    format: int = FORMAT

    def as_json(self) -> bytes:
        told = asdict(self) | {
            "parts": {name: it._asdict() for name, it in self.parts.items()}
        }
        return json.dumps(told, indent=1, ensure_ascii=False).encode()

    @property
    def files(self) -> list[str]:
        """The parts that are stored files."""
        return [name for name in self.parts if name.startswith(FILES)]

    @property
    def rows(self) -> int:
        return sum(it.rows for it in self.tables.values())


def read(content: bytes) -> Manifest:
    """The manifest of an archive. Raises WrongMove for another form or version."""
    try:
        told = json.loads(content)
        version = told["format"]
    except (ValueError, TypeError, KeyError, RecursionError):
        raise _unreadable() from None
    if version != FORMAT:
        raise WrongMove(
            f"The archive has the form {version!r}; this program reads form {FORMAT}. "
            "Restore it with the version of the program that wrote it."
        )
    try:
        return _manifest(told)
    except (TypeError, KeyError, AttributeError, ValueError, OverflowError):
        raise _unreadable() from None


def _manifest(told: Mapping[str, Any]) -> Manifest:
    return Manifest(
        made_at=str(told["made_at"]),
        entries=int(told["entries"]),
        head=str(told["head"]),
        tables={label: _table(**it) for label, it in told["tables"].items()},
        parts={name: Part(**it) for name, it in told["parts"].items()},
    )


def _table(part: str, rows: int, columns: list[str]) -> Table:
    return Table(str(part), int(rows), list(columns))


def _unreadable() -> WrongMove:
    return WrongMove(
        f"The {MANIFEST} of this file cannot be read, so it is no archive of a record. "
        "Choose another file."
    )
