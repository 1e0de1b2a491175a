"""The words of the paper: both languages alike, days and numbers as people read them."""

import string

import pytest

from lims.documents import words_de, words_en
from lims.documents.words import Words, held

ENGLISH, GERMAN = Words.of("en"), Words.of("de")


def places(phrase: str) -> set[str | None]:
    return {name for _, name, _, _ in string.Formatter().parse(phrase) if name}


def test_german_says_everything_that_english_says() -> None:
    assert words_de.WORDS.keys() == words_en.WORDS.keys()
    assert words_de.RULES.keys() == words_en.RULES.keys()
    assert words_de.PROCEDURES.keys() == words_en.PROCEDURES.keys()
    assert len(words_de.NUMBERS) == len(words_en.NUMBERS) == 21


@pytest.mark.parametrize("key", sorted(words_en.WORDS))
def test_a_phrase_leaves_the_same_places_open_in_both_languages(key: str) -> None:
    assert places(words_de.WORDS[key]) == places(words_en.WORDS[key])


@pytest.mark.parametrize(
    ("first", "last", "english", "german"),
    [
        ("2026-03-05", "", "5 March 2026", "5. März 2026"),
        ("2026-03-05", "2026-03-05", "5 March 2026", "5. März 2026"),
        ("2026-03-05", "2026-03-06", "5 to 6 March 2026", "5. bis 6. März 2026"),
        (
            *("2026-02-25", "2026-03-02"),
            *("25 February to 2 March 2026", "25. Februar bis 2. März 2026"),
        ),
        (
            *("2025-12-30", "2026-01-02"),
            *(
                "30 December 2025 to 2 January 2026",
                "30. Dezember 2025 bis 2. Januar 2026",
            ),
        ),
    ],
)
def test_days_say_what_they_share_once(
    first: str, last: str, english: str, german: str
) -> None:
    assert ENGLISH.days(first, last) == english
    assert GERMAN.days(first, last) == german


def test_a_moment_stands_in_its_zone_or_at_its_own_offset() -> None:
    assert (
        ENGLISH.moment("2026-07-06T14:48:12+00:00", "Europe/Berlin")
        == "6 July 2026, 16:48 UTC+2"
    )
    assert GERMAN.moment("2026-03-06T15:48:12+01:00") == "6. März 2026, 15:48 UTC+1"


@pytest.mark.parametrize(
    ("unit", "german"),
    [
        ("0.1 mm", "×\u00a00,1\u00a0mm"),
        ("1a to 4c", "1a to 4c"),
        ("0 to 5", "0 to 5"),
        ("mass %", "mass %"),
    ],
)
def test_only_a_unit_that_begins_with_a_figure_is_a_factor(
    unit: str, german: str
) -> None:
    assert GERMAN.unit(unit) == german


@pytest.mark.parametrize(
    ("english", "german"),
    [
        ("specification LX2, revision 5", "Spezifikation LX2, Revision 5"),
        ("Werkstoffvorschrift OL-4-118", "Werkstoffvorschrift OL-4-118"),
    ],
)
def test_a_specification_is_named_in_the_language(english: str, german: str) -> None:
    assert GERMAN.specification(english) == german
    assert ENGLISH.specification(english) == english


def test_a_plan_is_named_in_the_language() -> None:
    assert GERMAN.plan("plan SP-02") == "Plan SP-02"
    assert GERMAN.plan("nach Absprache") == "nach Absprache"


@pytest.mark.parametrize(
    ("found", "english", "german"),
    [
        ("pass", "pass", "bestanden"),
        ("fail", "fail", "nicht bestanden"),
        ("met", "met", "erfüllt"),
        ("0/1", "0/1", "0/1"),
        (">800", ">800", ">800"),
    ],
)
def test_a_finding_is_said_in_the_language_a_mark_stays(
    found: str, english: str, german: str
) -> None:
    assert ENGLISH.figure(found) == english
    assert GERMAN.figure(found) == german


def test_a_number_and_its_unit_stay_on_one_line() -> None:
    assert held("60 min at 25 °C, 180 kg each") == (
        "60\u00a0min at 25\u00a0°C, 180\u00a0kg each"
    )
    assert held("30 drums") == "30 drums"
