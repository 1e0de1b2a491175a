"""What a start leaves out: a command or a worker that prints nothing and sees no curve does not pay for it."""

import subprocess
import sys

from tests.watch.files import ROOT

SLOW = ("numpy", "openpyxl", "pandas", "scipy", "weasyprint")
START = f"""
import os, sys
import django
os.environ["DJANGO_SETTINGS_MODULE"] = "lims.settings"
django.setup()
from django.urls import get_resolver
get_resolver().url_patterns
print(*sorted(set({SLOW!r}) & set(sys.modules)))
"""


def test_a_start_loads_neither_the_printer_nor_numerics():
    run = subprocess.run(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", START],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )

    assert run.stdout.split() == []
