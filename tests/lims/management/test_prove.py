"""`manage.py prove`: one row a case, a count at the end, and 1 when anything is not proved."""

import io
import json
from dataclasses import replace

import pytest
from django.core.management import CommandError, call_command

from lims.management.commands import prove as command
from specs.proving import Result

RESULT = Result(
    file="one.json",
    case="E29-max-0.5",
    calculation="judge",
    expected="verdict not met",
    got="verdict not met",
    standing="published",
    source="a table",
    passed=True,
)


@pytest.fixture
def answers(monkeypatch):
    """What the cases come to, without computing."""

    def set_to(*results, left=()):
        monkeypatch.setattr(command, "prove", lambda files: list(results))
        monkeypatch.setattr(command, "unproved", lambda files: list(left))

    return set_to


def run(*paths):
    out = io.StringIO()
    call_command("prove", *map(str, paths), stdout=out)
    return out.getvalue().splitlines()


def test_each_case_has_a_row_and_the_last_line_counts(answers):
    answers(RESULT, replace(RESULT, case="E29-min-1"))

    head, first, second, last = run()

    assert head.split() == ["Case", "Expected", "Got", "Standing", "Source"]
    assert first.split()[:2] == ["passed", "E29-max-0.5"]
    assert second.split()[:2] == ["passed", "E29-min-1"]
    assert first.endswith("published  a table")
    assert last == "2 passed, 0 failed"


def test_a_calculation_without_a_case_is_listed_and_counted(answers):
    answers(RESULT, left=["outlier", "trend"])

    assert "2 unproved: outlier, trend" in run()


def test_one_wrong_case_ends_with_1(answers):
    answers(RESULT, replace(RESULT, passed=False, error="The key is missing."))

    with pytest.raises(CommandError, match="1 passed, 1 failed") as end:
        run()

    assert end.value.returncode == 1


def test_nothing_run_is_nothing_proved(answers):
    answers()

    with pytest.raises(CommandError, match="0 passed, 0 failed"):
        run()


def test_a_laboratorys_own_file_is_run(tmp_path):
    path = tmp_path / "own.json"
    path.write_text(json.dumps({"subject": "x", "cases": [{"id": "ours"}]}))

    with pytest.raises(CommandError, match="0 passed, 1 failed"):
        run(path)


@pytest.mark.parametrize(
    ("text", "words"), [(None, "cannot be read"), ("{", "is not JSON")]
)
def test_a_file_that_holds_no_cases_is_named(tmp_path, text, words):
    path = tmp_path / "own.json"
    if text is not None:
        path.write_text(text)

    with pytest.raises(CommandError, match=f"own.json {words}"):
        run(path)
