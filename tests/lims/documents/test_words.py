"""The words of the paper: days and numbers as people read them."""

import json
from pathlib import Path

import pytest

from lims.documents.words import Words, held
from lims.wording.languages import LANGUAGES, Language

CHARACTERISTICS = (
    Path(__file__).parents[3] / "fixtures" / "reference" / "characteristics.json"
)
ENGLISH, GERMAN = Words.of("en"), Words.of("de")


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (
            *("2026-03-05", ""),
            (
                *("5 March 2026", "5. März 2026", "5 mars 2026"),
                *("5 de marzo de 2026", "5 marca 2026"),
            ),
        ),
        (
            *("2026-03-01", "2026-03-01"),
            (
                *("1 March 2026", "1. März 2026", "1er mars 2026"),
                *("1 de marzo de 2026", "1 marca 2026"),
            ),
        ),
        (
            *("2026-03-01", "2026-03-06"),
            (
                *("1 to 6 March 2026", "1. bis 6. März 2026", "du 1er au 6 mars 2026"),
                *("del 1 al 6 de marzo de 2026", "od 1 do 6 marca 2026"),
            ),
        ),
        (
            *("2026-02-25", "2026-03-02"),
            (
                "25 February to 2 March 2026",
                "25. Februar bis 2. März 2026",
                "du 25 février au 2 mars 2026",
                "del 25 de febrero al 2 de marzo de 2026",
                "od 25 lutego do 2 marca 2026",
            ),
        ),
        (
            *("2025-12-30", "2026-01-02"),
            (
                "30 December 2025 to 2 January 2026",
                "30. Dezember 2025 bis 2. Januar 2026",
                "du 30 décembre 2025 au 2 janvier 2026",
                "del 30 de diciembre de 2025 al 2 de enero de 2026",
                "od 30 grudnia 2025 do 2 stycznia 2026",
            ),
        ),
    ],
)
def test_days_say_what_they_share_once(
    first: str, last: str, said: tuple[str, ...]
) -> None:
    assert tuple(Words.of(it).days(first, last) for it in LANGUAGES) == said


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
        ("1a to 4c", "1a bis 4c"),
        ("0 to 5", "0 bis 5"),
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


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_unit_of_the_method_book_is_held_or_is_none(language: Language) -> None:
    book = json.loads(CHARACTERISTICS.read_text(encoding="utf-8"))
    units = {each["unit"] for each in book} - {""}
    words = Words.of(language)

    broken = {
        it for it in units if " " in held(f"at 5 {words.unit(it)}").removeprefix("at ")
    }

    assert broken == set()


@pytest.mark.parametrize(
    ("names", "spanish"),
    [
        (["aspecto", "índice de viscosidad"], "aspecto e índice de viscosidad"),
        (["agua", "hierro"], "agua y hierro"),
        (["agua", "hinchazón"], "agua e hinchazón"),
        (["6", "7", "8"], "6, 7 y 8"),
    ],
)
def test_spanish_and_is_e_before_the_sound_of_i(names: list[str], spanish: str) -> None:
    assert Words.of("es").joined(names) == spanish


def test_several_functions_of_one_person_are_each_said_in_the_language() -> None:
    held_by_one = "technician, laboratory manager and quality manager"

    assert Words.of("fr").functions(held_by_one) == (
        "technicien de laboratoire, direction du laboratoire et direction de la qualité"
    )
    assert ENGLISH.functions(held_by_one) == held_by_one
    assert ENGLISH.functions("Head of the laboratory") == "Head of the laboratory"


def test_a_typical_value_has_the_languages_decimal_mark() -> None:
    assert Words.of("pl").value("about 0.90 g/cm³") == "about 0,90 g/cm³"
    assert ENGLISH.value("about 0.90 g/cm³") == "about 0.90 g/cm³"
    assert GERMAN.value("see 1.2.3") == "see 1.2.3"
