"""`manage.py print_certificates`: what was issued and has no file gets one."""

import io

import pytest
from django.core.management import call_command

from lims.documents import printing


@pytest.mark.parametrize(
    ("issued", "lines"),
    [
        ([], ["Every certificate has its file."]),
        (
            ["Q1-2026-0007", "Q1-2026-0008"],
            ["Printed Q1-2026-0007.", "Printed Q1-2026-0008."],
        ),
    ],
)
def test_what_was_printed_is_named(monkeypatch, issued, lines):
    monkeypatch.setattr(printing, "print_due", lambda: issued)
    out = io.StringIO()

    call_command("print_certificates", stdout=out)

    assert out.getvalue().splitlines() == lines
