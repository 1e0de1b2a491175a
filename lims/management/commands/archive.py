"""`manage.py archive FILE.zip`: the whole record as one file, in forms that any program reads."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from lims.record import clock
from lims.record.refusals import Refusal


class Command(BaseCommand):
    help = "Writes the whole record, with its stored files and without passwords, to a new file."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "file", type=Path, help="the file to write, such as record.zip"
        )

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        from lims.sheets.actions import take_archive

        clock.resume_demo()
        if file.exists():
            raise CommandError(f"{file} is there already: name another file.")
        half = file.with_name(f"{file.name}.part")
        try:
            half.touch(mode=0o600)
            with half.open("wb") as to:
                manifest = take_archive(to=to, by=None)
            half.rename(file)
        except Refusal as refusal:
            raise CommandError(refusal.sentence) from refusal
        except OSError as trouble:
            raise CommandError(f"{file} cannot be written: {trouble}.") from trouble
        finally:
            half.unlink(missing_ok=True)
        self.stdout.write(
            f"{file}: {manifest.entries} entries, {manifest.rows} rows of "
            f"{len(manifest.tables)} tables, {len(manifest.files)} stored files."
        )
        self.stdout.write(
            f"Entry {manifest.entries} has the head {manifest.head}. Note both outside "
            "the house: a restored record is compared with them."
        )
