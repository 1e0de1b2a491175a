"""`manage.py verify`: does the record hold? Names the first thing that is wrong, and then exits with 1."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from lims.record.verify import verify


class Command(BaseCommand):
    help = "Walks the record, its triggers, signatures and the certificates' files."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        report = verify()
        for line in report.lines:
            self.stdout.write(line)
        if report.first_wrong is not None:
            raise CommandError(
                f"The record does not hold. First thing wrong: {report.first_wrong}."
            )
        self.stdout.write("The record holds.")
