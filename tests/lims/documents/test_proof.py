"""The report on the proof of the arithmetic, as it is read on paper."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from lims.documents.proof import finding, print_proof, proof_html, told
from lims.methods.known_answers import Proof, arithmetic_fingerprint, shipped
from specs.proving import Result

AT = datetime(2026, 3, 5, 10, 20, tzinfo=UTC)
CASE = Result(
    file="one.json",
    case="E29-max-0.5",
    calculation="judge",
    expected='{"verdict": "not met", "compared": "0.6"}',
    got='{"verdict": "not met", "compared": "0.6"}',
    standing="published",
    source="ASTM E29, a <table>",
    passed=True,
)


def html(*results):
    return proof_html(Proof(results, "c" * 16), at=AT, zone=UTC, site="Quernstone")


def test_a_row_tells_case_answers_standing_and_source():
    text = html(CASE)

    assert "E29-max-0.5" in text
    assert text.count("verdict not met; compared 0.6") == 2
    assert "published: ASTM E29, a &lt;table&gt;" in text
    assert "1 passed, 0 failed" in text


def test_it_is_dated_versioned_and_has_a_line_to_sign():
    text = html(CASE)

    assert "Quernstone, 5 March 2026, 10:20 UTC" in text
    assert arithmetic_fingerprint() in text
    assert "c" * 16 in text
    assert "Looked at and accepted for use by" in text


def test_a_failed_case_shows_why_and_the_report_says_not_proved():
    text = html(replace(CASE, passed=False, error="The key “x” is unknown."))

    assert 'class="failed"' in text
    assert "The key “x” is unknown." in text
    assert "Not proved: a case does not agree." in text


@pytest.mark.parametrize(
    ("results", "words"),
    [
        ((), "No case was run, so nothing is proved."),
        ((CASE,), "Every case agrees. Without a case: round"),
        ((replace(CASE, passed=False),), "Not proved"),
    ],
)
def test_the_finding_claims_no_more_than_was_run(results, words):
    assert finding(Proof(results, "")).startswith(words)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"grade": null, "between": ["1", "2"]}', "grade none; between 1, 2"),
        ('{"accepted": true, "set_aside": []}', "accepted yes; set_aside none"),
        ("refused: Write 5.", "refused: Write 5."),
        ('"alone"', '"alone"'),
    ],
)
def test_answers_are_told_in_words(text, words):
    assert told(text) == words


def test_the_paper_holds_every_shipped_case(text_of):
    pages = text_of(print_proof(shipped(), at=AT, zone=UTC))
    text = " ".join(pages)

    assert shipped().summary.capitalize() in text
    assert "End of the report" in pages[-1]
    assert all("Proof of the arithmetic" in page for page in pages)
