"""`manage.py prove`: one row a case, a count at the end, and 1 when anything is not proved."""

import io
import json
from dataclasses import replace

import pytest
from django.core.management import CommandError, call_command

from lims.management.commands import prove as command
from lims.methods.known_answers import Proof
from specs import listing
from specs.calculations import CALCULATIONS
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
    """What the cases come to, without computing; `known` are the calculations that there are."""

    def set_to(*results, known=("judge",)):
        proof = Proof(results, "0" * 16)
        monkeypatch.setattr(command, "proof_of", lambda files: proof)
        monkeypatch.setattr(
            listing, "CALCULATIONS", dict.fromkeys(known, CALCULATIONS["judge"])
        )

    return set_to


def run(*words):
    out = io.StringIO()
    call_command("prove", *map(str, words), stdout=out)
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
    answers(RESULT, known=["judge", "outlier", "trend"])

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


def test_the_list_names_every_calculation_its_source_and_its_cases(answers):
    answers(RESULT, replace(RESULT, case="two"), known=["judge", "trend"])

    head, judge, trend, unproved, last = run("--list")

    assert head.split("  ")[0] == "Calculation"
    assert judge.split() == [
        "judge",
        "2",
        "cases",
        *CALCULATIONS["judge"].source.split(),
    ]
    assert trend.split()[:2] == ["trend", "unproved"]
    assert unproved == "1 unproved: trend"
    assert last == "2 passed, 0 failed"


def test_the_report_is_written_even_when_a_case_fails(answers, tmp_path):
    answers(RESULT, replace(RESULT, case="two", passed=False))
    path = tmp_path / "report.pdf"

    with pytest.raises(CommandError, match="1 passed, 1 failed"):
        run("--pdf", path)

    assert path.read_bytes().startswith(b"%PDF-1.7")


def test_a_place_that_takes_no_report_is_named(answers, tmp_path):
    answers(RESULT)

    with pytest.raises(CommandError, match=r"cannot be written: .*\. Choose another"):
        run("--pdf", tmp_path / "nowhere" / "report.pdf")


def test_all_shipped_cases_agree_and_nothing_is_unproved():
    lines = run()

    assert lines[-1].endswith(" passed, 0 failed")
    assert not any("unproved" in line for line in lines)
