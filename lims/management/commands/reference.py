"""`manage.py reference`: adds the reference data as shipped. What stands already is left as it is."""

from typing import Any

from django.core.management.base import BaseCommand

from lims.methods import reference as methods
from lims.methods.actions import load_reference
from lims.products import reference as products
from lims.products.actions import load_published


class Command(BaseCommand):
    help = (
        "Adds the characteristics, methods, figures and published specifications that "
        "are shipped and missing."
    )
    requires_system_checks = []

    def handle(self, *args: Any, **options: Any) -> None:
        count = load_reference(data=methods.shipped(), by=None)
        count += load_published(data=products.shipped(), by=None)
        if options["verbosity"] > 0:
            self.stdout.write(f"{count} rows of reference data added.")
