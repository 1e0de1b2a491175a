"""`manage.py prove [FILE...]`: known-answer cases run through the functions that the screens use."""

import json
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser

from specs.proving import Result, prove, summary, unproved

SHIPPED = "fixtures/known_answers"
HEADINGS = ("", "Case", "Expected", "Got", "Standing", "Source")
WIDEST = 40


class Command(BaseCommand):
    help = (
        "Runs the known-answer cases as shipped, or those of a laboratory's own files."
    )
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "files", nargs="*", metavar="FILE", type=Path, help="cases of your own"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        paths = options["files"] or sorted((settings.ROOT / SHIPPED).glob("*.json"))
        files = {path.name: parsed(path) for path in paths}
        results = prove(files)
        for line in table(results):
            self.stdout.write(line)
        if not options["files"]:
            self.write_unproved(unproved(files))
        self.stdout.write(summary(results))
        if not results or not all(result.passed for result in results):
            raise CommandError(f"Not proved: {summary(results)}.")

    def write_unproved(self, names: list[str]) -> None:
        if names:
            self.stdout.write(f"{len(names)} unproved: {', '.join(names)}")


def parsed(path: Path) -> object:
    """The cases of a file, as plain objects. Numbers stand there as text."""
    try:
        found: object = json.loads(path.read_text(encoding="utf-8"))
    except OSError as trouble:
        raise CommandError(
            f"{path} cannot be read: {trouble.strerror}. See that the name is right."
        ) from trouble
    except ValueError as trouble:
        raise CommandError(f"{path} is not JSON: {trouble}.") from trouble
    return found


def table(results: list[Result]) -> list[str]:
    """One row a case, in columns; what is wider than WIDEST runs over into the next."""
    rows = [HEADINGS, *map(row, results)]
    columns = zip(*rows, strict=True)
    widths = [min(WIDEST, max(map(len, column))) for column in columns]
    return [
        "  ".join(
            text.ljust(width) for text, width in zip(cells, widths, strict=True)
        ).rstrip()
        for cells in rows
    ]


def row(result: Result) -> tuple[str, ...]:
    """The cells of one case."""
    return (
        "passed" if result.passed else "FAILED",
        result.case or f"(a case of {result.file})",
        result.expected,
        result.error or result.got,
        result.standing,
        result.source,
    )
