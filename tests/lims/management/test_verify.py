"""`manage.py verify`: says what was looked at, and ends with 1 at the first thing that is wrong."""

import io

import pytest
from django.core.management import CommandError, call_command

from lims.management.commands import verify as command
from lims.record.verify import Report


def run():
    out = io.StringIO()
    call_command("verify", stdout=out)
    return out.getvalue().splitlines()


def test_every_line_of_the_report_is_printed(monkeypatch):
    report = Report(["The record: 3 entries", "The triggers: all stand"], None)
    monkeypatch.setattr(command, "verify", lambda: report)

    assert run() == [*report.lines, "The record holds."]


def test_the_first_thing_wrong_is_named_and_the_command_ends_with_1(monkeypatch):
    report = Report(["The record: entry 2 is missing"], "entry 2 is missing")
    monkeypatch.setattr(command, "verify", lambda: report)

    with pytest.raises(
        CommandError, match="First thing wrong: entry 2 is missing"
    ) as e:
        run()

    assert e.value.returncode == 1


@pytest.mark.django_db
def test_a_new_record_holds():
    assert run()[-1] == "The record holds."
