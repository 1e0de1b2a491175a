"""The project's own files, for the tests that watch them."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = ("lims", "specs", "templates", "fixtures", "tests", ".ci")


def files(*folders: str, ending: str = "") -> Iterator[Path]:
    """Files below the folders (all of them when none is named), without what Python leaves."""
    for folder in folders or FOLDERS:
        for path in sorted((ROOT / folder).rglob(f"*{ending}")):
            if path.is_file() and "__pycache__" not in path.parts:
                yield path


def modules(*folders: str) -> Iterator[Path]:
    """Python files with something in them; migrations are Django's handwriting."""
    for path in files(*folders, ending=".py"):
        if "migrations" not in path.parts and path.read_text(encoding="utf-8").strip():
            yield path


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()
