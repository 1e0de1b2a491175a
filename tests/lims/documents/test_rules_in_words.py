"""The decision rule on the paper: one for all lines, or a line's own with the values that it accepts."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from lims.certificates.data import CertificateData, Row, Ruled
from lims.documents.certificate import print_certificate
from lims.documents.ruling import rule_sentences
from lims.documents.statement import statement_of
from lims.documents.words import Words
from tests.lims.documents import samples

ENGLISH, GERMAN = Words.of("en"), Words.of("de")
OWN = Ruled(
    rule="guarded acceptance",
    lower="268.55",
    upper="291.45",
    factor="1.645",
    uncertainty="2.16",
    basis="own uncertainty",
    confidence="0.95",
)
PENETRATION = samples.ROWS[0]  # 265 to 295
DROPPING = samples.ROWS[2]  # at least 190
OIL = samples.ROWS[3]  # at most 5.0


def paper(*rows: Row, language: str = "en") -> CertificateData:
    return replace(samples.ONE_LOT, rows=rows, language=language)


def ruled(row: Row, **figures: str) -> Row:
    return replace(row, ruled=replace(OWN, **figures))


def by_method(row: Row, rule: str, **figures: str) -> Row:
    method = {"uncertainty": "20", "factor": "0.593", "basis": "reproducibility"}
    return ruled(row, rule=f"bound of ISO 4259, {rule}", **method, **figures)


def test_a_line_with_a_rule_of_its_own_is_named_with_what_it_accepts() -> None:
    told = rule_sentences(paper(ruled(PENETRATION), DROPPING), ENGLISH)

    assert told == [
        "Decision rule: simple acceptance, without a guard band.",
        (
            "Decision rule of line 1, guarded acceptance: a value is accepted from 268.55 "
            "to 291.45, the limits less 1.645 × the laboratory’s standard uncertainty 2.16 "
            "(95 %, one-sided)."
        ),
    ]


def test_german_says_the_same_with_its_decimal_mark() -> None:
    told = rule_sentences(paper(ruled(PENETRATION), DROPPING), GERMAN)

    assert told == [
        "Entscheidungsregel: einfache Annahme, ohne Schutzabstand.",
        (
            "Entscheidungsregel der Zeile 1, Annahme mit Schutzabstand: ein Wert wird von "
            "268,55 bis 291,45 angenommen; das ist der Bereich der Grenzwerte, verengt um "
            "1,645 × Standardunsicherheit des Laboratoriums 2,16 (95 %, einseitig)."
        ),
    ]


def test_one_rule_of_every_line_stands_once() -> None:
    told = rule_sentences(paper(ruled(PENETRATION)), ENGLISH)

    assert len(told) == 1
    assert told[0].startswith("Decision rule, guarded acceptance: a value is accepted")


def test_lines_that_accept_the_same_are_named_together() -> None:
    same = replace(PENETRATION, line=4, characteristic="Worked penetration, K2")

    told = rule_sentences(
        paper(ruled(PENETRATION), ruled(same), ruled(DROPPING, lower="190.4")), ENGLISH
    )

    assert [sentence.partition(",")[0] for sentence in told] == [
        "Decision rule of lines 1 and 4",
        "Decision rule of line 3",
    ]


@pytest.mark.parametrize(
    ("row", "zone", "between"),
    [
        (
            ruled(DROPPING, lower="193.55", upper=""),
            "from 193.55,",
            "the limit plus 1.645",
        ),
        (ruled(OIL, lower="", upper="4.7"), "up to 4.7,", "the limit less 1.645"),
        (
            by_method(PENETRATION, "recipient", lower="253.13", upper="306.87"),
            "from 253.13 to 306.87,",
            "the limits widened by 0.593 × the method’s reproducibility 20",
        ),
        (
            by_method(DROPPING, "recipient", lower="178.13", upper=""),
            "from 178.13,",
            "the limit less 0.593 × the method’s reproducibility 20",
        ),
        (
            by_method(OIL, "supplier", lower="", upper="4.4", confidence="0.975"),
            "up to 4.4,",
            "(97.5 %, one-sided)",
        ),
    ],
)
def test_how_the_zone_lies_to_its_limits(row: Row, zone: str, between: str) -> None:
    [sentence] = rule_sentences(paper(row), ENGLISH)

    assert zone in sentence
    assert between in sentence


def test_a_line_that_is_only_reported_is_judged_by_no_rule() -> None:
    only = replace(ruled(DROPPING), verdict="")

    assert rule_sentences(paper(PENETRATION, only), ENGLISH) == [
        "Decision rule: simple acceptance, without a guard band."
    ]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (ENGLISH, "Where a rule names the values that it accepts"),
        (GERMAN, "Nennt eine Regel die Werte, die sie annimmt"),
    ],
)
def test_what_is_compared_is_said_only_where_a_rule_has_a_zone(
    words: Words, sentence: str
) -> None:
    plain, zone = paper(PENETRATION), paper(ruled(PENETRATION))

    assert sentence not in " ".join(statement_of(plain, words))
    assert sentence in " ".join(statement_of(zone, words))


def test_the_rule_is_printed_and_comes_back_from_the_data(
    running_text_of: Callable[[bytes], list[str]],
) -> None:
    data = paper(ruled(PENETRATION), *samples.ROWS[1:])

    [text] = running_text_of(print_certificate(data))

    assert "accepted from 268.55 to 291.45, the limits less 1.645 ×" in text
    assert "risk" not in text
    assert CertificateData.from_json(data.to_json()) == data
