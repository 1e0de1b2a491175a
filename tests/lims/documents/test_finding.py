"""The finding counts truly and says it in words."""

from dataclasses import replace

import pytest

from lims.certificates.data import ON_BATCH, PERIODIC, CertificateData, Row, TestedOn
from lims.documents.finding import finding_words
from tests.lims.documents import samples

FIRST = samples.ROWS[0]
OTHER_LOT = TestedOn(batch="Q1-26-0417", lot="B")


def of(*rows: Row, language: str = "en") -> CertificateData:
    numbered = tuple(replace(row, line=n) for n, row in enumerate(rows, 1))
    return replace(samples.ONE_LOT, rows=numbered, language=language)


def met(count: int) -> list[Row]:
    return [FIRST] * count


ON_OTHER_LOT = replace(FIRST, evidence=ON_BATCH, tested_on=OTHER_LOT)
PERIODICALLY = replace(FIRST, evidence=PERIODIC, tested_on=OTHER_LOT)
NOT_MET = replace(FIRST, verdict="not met")
REPORT_ONLY = replace(FIRST, verdict="")


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        (met(1), "The one requirement is met. It was tested on this lot."),
        (met(2), "Both requirements met. All were tested on this lot."),
        (met(20), "All twenty requirements met. All were tested on this lot."),
        (met(21), "All 21 requirements met. All were tested on this lot."),
        (
            [*met(2), REPORT_ONLY],
            "Both requirements met. All were tested on this lot.",
        ),
        (
            [*met(1), ON_OTHER_LOT, PERIODICALLY, PERIODICALLY],
            (
                "All four requirements met. One was tested on this lot; "
                "line 2 was tested on this batch; lines 3 and 4 are periodic."
            ),
        ),
        (
            [PERIODICALLY],
            "The one requirement is met. None was tested on this lot; line 1 is periodic.",
        ),
        (
            [NOT_MET],
            (
                "The one requirement not met. Requirement not met: worked penetration. "
                "It was tested on this lot."
            ),
        ),
        (
            [NOT_MET, replace(NOT_MET, characteristic="NLGI number"), FIRST],
            (
                "Two of three requirements not met. "
                "Requirements not met: worked penetration and NLGI number. "
                "All were tested on this lot."
            ),
        ),
        (
            [FIRST, replace(FIRST, verdict="not tested")],
            (
                "One of two requirements met. Not tested: worked penetration. "
                "One was tested on this lot."
            ),
        ),
        ([REPORT_ONLY], "Results reported; no requirement has a limit."),
    ],
)
def test_the_finding_in_english(rows: list[Row], sentence: str) -> None:
    assert str(finding_words(of(*rows))) == sentence


@pytest.mark.parametrize(
    ("rows", "sentence"),
    [
        (
            met(12),
            "Alle zwölf Anforderungen erfüllt. Alle wurden an diesem Los geprüft.",
        ),
        (
            [*met(2), PERIODICALLY],
            (
                "Alle drei Anforderungen erfüllt. Zwei wurden an diesem Los geprüft; "
                "Zeile 3 ist periodisch."
            ),
        ),
        (
            [replace(NOT_MET, characteristic="Walkpenetration"), FIRST],
            (
                "Eine von zwei Anforderungen nicht erfüllt. "
                "Anforderung nicht erfüllt: Walkpenetration. "
                "Alle wurden an diesem Los geprüft."
            ),
        ),
    ],
)
def test_the_finding_in_german(rows: list[Row], sentence: str) -> None:
    assert str(finding_words(of(*rows, language="de"))) == sentence


def test_a_preview_finds_only_so_far() -> None:
    found = finding_words(samples.PREVIEW)

    assert found.title == "So far: all seven requirements met."
    assert found.rest.startswith("Not authorised:")
