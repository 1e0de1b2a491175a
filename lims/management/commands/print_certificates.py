"""`manage.py print_certificates`: prints what was issued and has no file yet."""

from typing import Any

from django.core.management.base import BaseCommand


class Command(BaseCommand):
    help = "Prints the certificates that were issued and have no file yet."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        from lims.documents.printing import print_due  # loads the printing libraries

        printed = print_due()
        for issued in printed:
            self.stdout.write(f"Printed {issued}.")
        if not printed:
            self.stdout.write("Every certificate has its file.")
