"""The words of the paper: both languages alike, days and numbers as people read them."""

import json
import string
from pathlib import Path

import pytest

from lims.documents import words_de, words_en
from lims.documents.words import Words, held

CHARACTERISTICS = (
    Path(__file__).parents[3] / "fixtures" / "reference" / "characteristics.json"
)
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
        ("mass %", "Massen-%"),
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
        (
            "specification BM for LX2, revision 2",
            "Spezifikation BM für LX2, Revision 2",
        ),
        ("Werkstoffvorschrift OL-4-118", "Werkstoffvorschrift OL-4-118"),
    ],
)
def test_a_specification_is_named_in_the_language(english: str, german: str) -> None:
    assert GERMAN.specification(english) == german
    assert ENGLISH.specification(english) == english


def test_an_edition_is_named_in_the_language() -> None:
    assert GERMAN.method("QG-A1, edition 1") == "QG-A1, Ausgabe 1"
    assert ENGLISH.method("QG-A1, edition 1") == "QG-A1, edition 1"
    assert GERMAN.method("ASTM D217-21a") == "ASTM D217-21a"


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


@pytest.mark.parametrize(
    "unit",
    [
        *("mN·m", "N·m", "Pa·s", "Pa", "mbar", "lbf", "kgf", "mg/kg", "mm²/s"),
        *("Massen-%", "Volumen-%", "min⁻¹", "g/cm³", "P"),
    ],
)
def test_every_unit_of_the_method_book_is_held_to_its_number(unit: str) -> None:
    assert held(f"at most 5.0 {unit}, 2 runs") == f"at most 5.0\u00a0{unit}, 2 runs"


@pytest.mark.parametrize("unit", ["mass %", "volume %", "Shore A"])
def test_a_unit_of_two_words_is_held_together(unit: str) -> None:
    first, second = unit.split()
    assert held(f"5.0 {unit}") == f"5.0\u00a0{first}\u00a0{second}"
    assert held(f"{first} Above") == f"{first} Above"


def test_a_unit_in_words_is_said_in_the_language() -> None:
    assert ENGLISH.unit("mass %") == "mass %"
    assert GERMAN.unit("mass %") == "Massen-%"
    assert GERMAN.unit("volume %") == "Volumen-%"
    assert GERMAN.unit("mm²/s") == "mm²/s"


def test_every_unit_of_the_method_book_is_held_or_is_none() -> None:
    book = json.loads(CHARACTERISTICS.read_text(encoding="utf-8"))
    units = {each["unit"] for each in book} - {""}

    broken = {
        it
        for it in units
        if " " in held(f"at 5 {ENGLISH.unit(it)}").removeprefix("at ")
    }

    assert broken == set()
