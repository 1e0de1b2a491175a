"""`manage.py restore FILE.zip`: makes an empty, migrated database of an archive again."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.urls import reverse

from lims.imports.models import Import, Staging
from lims.people import queries, roles, tokens
from lims.record import clock
from lims.record.archive.restoring import Known, restore
from lims.record.refusals import Refusal
from lims.sheets import jobs


class Command(BaseCommand):
    help = "Loads an archive into an empty database and its files into the storage; all of it or nothing."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="the archive")
        parser.add_argument(
            "--entry", type=int, help="an entry whose head was noted outside the house"
        )
        parser.add_argument("--head", default="", help="its head, at least 8 signs")

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        clock.resume_demo()
        known = _known(options["entry"], options["head"])
        try:
            with file.open("rb") as archive:
                manifest = restore(archive, known=known)
        except Refusal as refusal:
            raise CommandError(refusal.sentence) from refusal
        except OSError as trouble:
            raise CommandError(f"{file} cannot be read: {trouble}.") from trouble
        self.stdout.write(
            f"Restored {manifest.entries} entries, {manifest.rows} rows and "
            f"{len(manifest.files)} stored files, as of {manifest.made_at}. "
            "The record holds."
        )
        self.stdout.write(
            f"Entry {manifest.entries} has the head {manifest.head}"
            + (". " if known else ": compare it with one noted outside the house. ")
            + "No account has a password: an administrator chooses one by this link, "
            "within three days, and starts a new password for everybody else."
        )
        for line in _links():
            self.stdout.write(line)
        for name in _look_again():
            self.stdout.write(f"{name} waits to be taken in: it is looked at again.")


def _known(entry: int | None, head: str) -> Known | None:
    """The entry and the head to compare with. Both are given, or neither."""
    head = "".join(head.split()).lower()
    if entry is None and not head:
        return None
    if entry is None or len(head) < 8 or set(head) - set("0123456789abcdef"):
        raise CommandError(
            "To compare with a head, give both: --entry and its number, --head and at "
            "least the first 8 of its signs, 0 to 9 and a to f."
        )
    return entry, head


def _look_again() -> Iterator[str]:
    """Look anew at each file that waits to be taken in: what was found of it is in no archive."""
    for row in Import.objects.filter(state=Import.State.RECEIVED).order_by("pk"):
        Staging.objects.get_or_create(
            import_of=row, defaults={"changed_at": clock.now()}
        )
        jobs.look(row)
        yield row.name


def _links() -> list[str]:
    """For each administrator the address at which a password is chosen."""
    found = []
    for person in queries.holders(roles.ADMINISTRATOR):
        parts = [tokens.reference_of(person), tokens.token_for(person)]
        address = reverse("front:invitation", args=parts)
        found.append(f"{person.account} ({person.name}): {address}")
    return found
