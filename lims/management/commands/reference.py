"""`manage.py reference`: adds the reference data as shipped. What stands already is left as it is."""

from typing import Any

from django.core.management.base import BaseCommand

from lims.methods.actions import load_reference
from lims.methods.reference import shipped


class Command(BaseCommand):
    help = "Adds the characteristics, methods and figures that are shipped and missing."
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        count = load_reference(data=shipped(), by=None)
        if options["verbosity"] > 0:
            self.stdout.write(f"{count} rows of reference data added.")
