"""`manage.py prove [FILE...]`: known-answer cases run through the functions that the screens use."""

from datetime import UTC
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from lims.documents.proof import print_proof
from lims.methods.known_answers import Proof, UnreadableError, proof_of, shipped_files
from lims.record.clock import now
from specs.listing import Listed
from specs.proving import Result

HEADINGS = ("", "Case", "Expected", "Got", "Standing", "Source")
LIST_HEADINGS = ("Calculation", "Cases", "Source of the formula")
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
        parser.add_argument(
            "--pdf", metavar="REPORT", type=Path, help="write the dated report too"
        )
        parser.add_argument(
            "--list",
            action="store_true",
            help="every calculation, the source of its formula, how many cases",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            proof = proof_of(options["files"] or shipped_files())
        except UnreadableError as trouble:
            raise CommandError(str(trouble)) from trouble
        self.tell(proof, as_list=options["list"], is_own=bool(options["files"]))
        if options["pdf"]:
            self.write_report(proof, options["pdf"])
        if not proof.results or proof.failed:
            raise CommandError(f"Not proved: {proof.summary}.")

    def tell(self, proof: Proof, *, as_list: bool, is_own: bool) -> None:
        cells = list_cells(proof.listed) if as_list else cells_of(proof.results)
        for line in table(cells):
            self.stdout.write(line)
        unproved = proof.unproved
        if unproved and not is_own:
            self.stdout.write(f"{len(unproved)} unproved: {', '.join(unproved)}")
        self.stdout.write(proof.summary)

    def write_report(self, proof: Proof, path: Path) -> None:
        try:
            path.write_bytes(print_proof(proof, at=now(), zone=UTC))
        except OSError as trouble:
            raise CommandError(
                f"{path} cannot be written: {trouble.strerror}. Choose another place."
            ) from trouble
        self.stdout.write(f"The report is in {path}.")


def table(cells: list[tuple[str, ...]]) -> list[str]:
    """The rows in columns; what is wider than WIDEST runs over into the next."""
    widths = [min(WIDEST, max(map(len, column))) for column in zip(*cells, strict=True)]
    return [
        "  ".join(
            text.ljust(width) for text, width in zip(row, widths, strict=True)
        ).rstrip()
        for row in cells
    ]


def cells_of(results: tuple[Result, ...]) -> list[tuple[str, ...]]:
    """The headings and one row a case."""
    return [HEADINGS, *map(_row, results)]


def _row(result: Result) -> tuple[str, ...]:
    return (
        "passed" if result.passed else "FAILED",
        result.case or f"(a case of {result.file})",
        result.expected,
        result.error or result.got,
        result.standing,
        result.source,
    )


def list_cells(rows: list[Listed]) -> list[tuple[str, ...]]:
    """The headings and one row a calculation."""
    return [LIST_HEADINGS, *((it.name, it.words, it.source) for it in rows)]
