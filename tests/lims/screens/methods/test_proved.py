"""The pages of the proved arithmetic: all calculations, one with its cases, the report."""

import html
from dataclasses import replace

import pytest
from django.urls import reverse

from lims.documents import proof as paper
from lims.methods import known_answers
from lims.methods.known_answers import Proof, shipped
from lims.screens.methods import proved
from specs.calculations import CALCULATIONS


@pytest.fixture
def reader(as_):
    return as_("tech-a")


def test_every_calculation_is_listed_with_its_source(reader):
    text = reader.get(reverse("methods:proved")).content.decode()

    for name in CALCULATIONS:
        assert reverse("methods:proved-one", args=[name]) in text
    assert "known answers agree" in text


def test_the_answer_counts_what_agrees(reader, monkeypatch):
    results = shipped().results
    broken = Proof((replace(results[0], passed=False), *results[1:]), "x")
    monkeypatch.setattr(proved, "shipped", lambda: broken)

    text = reader.get(reverse("methods:proved")).content.decode()

    assert f"{len(results) - 1} of {len(results)} known answers agree" in text
    assert "Not proved: a case does not agree." in text


def test_a_calculation_shows_each_case_with_what_was_got(reader):
    address = reverse("methods:proved-one", args=["judge"])

    text = html.unescape(reader.get(address).content.decode())

    cases = [it for it in shipped().results if it.calculation == "judge"]
    assert cases
    for case in cases:
        assert case.case in text


def test_a_calculation_without_a_case_says_so(reader, monkeypatch):
    monkeypatch.setattr(proved, "shipped", lambda: Proof((), "x"))

    text = reader.get(reverse("methods:proved-one", args=["judge"])).content.decode()

    assert "No known answer is kept for this calculation" in text


def test_an_unknown_calculation_is_not_found(reader):
    assert reader.get("/methods/proved/alchemy/").status_code == 404


def test_the_report_is_a_pdf_of_this_site(reader, monkeypatch):
    told = {}

    def printed(proof, **given):
        told.update(given)
        return paper.print_proof(Proof(proof.results[:1], "x"), **given)

    monkeypatch.setattr(proved, "print_proof", printed)

    answer = reader.get(reverse("methods:proof-report"))

    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")
    assert told["site"]


def test_a_file_of_cases_that_changes_changes_the_fingerprint(tmp_path):
    path = tmp_path / "cases.json"
    path.write_text("{}")
    before = known_answers.fingerprint_of([path])

    path.write_text("{ }")

    assert known_answers.fingerprint_of([path]) != before
