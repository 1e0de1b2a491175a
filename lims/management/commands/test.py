"""`manage.py test`: every test, by pytest. What follows the command goes to pytest as it stands."""

import os
import sys
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand

from lims.management import programs

DEMAND = "KETTLEMARK_DEMAND_BROWSER"  # set by .ci/run, where no test may be left out

ON_EVERY_CORE = ["-n", "auto", "--dist", "loadfile"]


class Command(BaseCommand):
    help = "Runs every test. Options are pytest's: manage.py test -k penetration"

    def run_from_argv(self, argv: list[str]) -> None:
        """Hand the options to pytest unread: they are its own."""
        self.handle(*argv[2:])

    def handle(self, *args: str, **options: Any) -> None:
        import pytest  # here only, so that a server never loads it

        reasons = programs.missing()
        if reasons and os.environ.get(DEMAND) == "1":
            sys.exit("\n".join(reasons.values()))
        browser = programs.chromium()
        if browser:
            os.environ["CHROMIUM"] = browser
        os.chdir(settings.ROOT)  # where pytest finds its settings and the tests
        options_given = list(args) if args or reasons else ON_EVERY_CORE
        sys.exit(int(pytest.main(options_given, plugins=[programs.LeftOut(reasons)])))
