"""The known-answer cases as shipped, run once in each process: neither they nor the program change while it runs."""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib import metadata
from pathlib import Path

from django.conf import settings

import specs
from specs.listing import Listed, listed
from specs.proving import Result, prove, summary

SHIPPED = "fixtures/known_answers"
DIGITS = 16


class UnreadableError(Exception):
    """A file of cases that cannot be read; its text is a sentence."""


@dataclass(frozen=True)
class Proof:
    """What a run of known answers came to."""

    results: tuple[Result, ...]
    cases_fingerprint: str  # of the files that were run

    @property
    def listed(self) -> list[Listed]:
        return listed(self.results)

    @property
    def summary(self) -> str:
        return summary(self.results)

    @property
    def failed(self) -> int:
        return sum(not result.passed for result in self.results)

    @property
    def unproved(self) -> list[str]:
        return [it.name for it in self.listed if not it.cases]


def shipped_files() -> list[Path]:
    return sorted((settings.ROOT / SHIPPED).glob("*.json"))


@cache
def shipped() -> Proof:
    """Every shipped case, run through the functions that the screens use."""
    return proof_of(shipped_files())


def proof_of(paths: Iterable[Path]) -> Proof:
    """The cases of these files, run."""
    paths = list(paths)
    files = {path.name: parsed(path) for path in paths}
    return Proof(tuple(prove(files)), fingerprint_of(paths))


def parsed(path: Path) -> object:
    """The cases of a file, as plain objects. Numbers stand there as text."""
    try:
        found: object = json.loads(path.read_text(encoding="utf-8"))
    except OSError as trouble:
        raise UnreadableError(
            f"{path} cannot be read: {trouble.strerror}. See that the name is right."
        ) from trouble
    except ValueError as trouble:
        raise UnreadableError(f"{path} is not JSON: {trouble}.") from trouble
    return found


def fingerprint_of(paths: Iterable[Path]) -> str:
    """The first digits of the SHA-256 over the files' names and bytes, in their order."""
    total = hashlib.sha256()
    for path in paths:
        total.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return total.hexdigest()[:DIGITS]


@cache
def arithmetic_fingerprint() -> str:
    """The fingerprint of the arithmetic itself: of every module of specs as it lies here."""
    root = Path(specs.__path__[0])
    return fingerprint_of(sorted(root.rglob("*.py")))


@cache
def libraries() -> tuple[str, ...]:
    """The libraries that the arithmetic rests on, with their versions."""
    return tuple(f"{name} {metadata.version(name)}" for name in ("numpy", "scipy"))
