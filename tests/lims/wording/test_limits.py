"""Limits are said in words, on either side or none."""

import pytest

from lims.wording.languages import Language
from lims.wording.limits import limits


@pytest.mark.parametrize(
    ("lower", "upper", "english", "german"),
    [
        ("265", "295", "265 to 295", "265 bis 295"),
        (None, "5.0", "at most 5.0", "höchstens 5,0"),
        ("190", None, "at least 190", "mindestens 190"),
        (None, None, "no limit", "keine Grenze"),
        ("0", None, "at least 0", "mindestens 0"),
    ],
)
def test_limits_read_as_a_person_says_them(
    lower: str | None, upper: str | None, english: str, german: str
) -> None:
    assert limits(lower, upper) == english
    assert limits(lower, upper, language="de") == german


def test_a_signed_limit_keeps_its_sign_and_its_unit() -> None:
    assert limits(None, "30", "%", signed=True) == "at most +30\u00a0%"
    assert limits("-10", "30", signed=True) == "−10 to +30"


@pytest.mark.parametrize(
    ("language", "both", "most", "least", "none"),
    [
        ("fr", "2,5 à 3", "au plus 3 %", "au moins 2,5 %", "pas de limite"),
        ("es", "2,5 a 3", "como máximo 3 %", "como mínimo 2,5 %", "sin límite"),
        ("pl", "2,5 do 3", "najwyżej 3 %", "co najmniej 2,5 %", "bez granicy"),
    ],
)
def test_limits_are_told_in_the_other_languages_of_the_papers(
    language: Language, both: str, most: str, least: str, none: str
) -> None:
    assert limits("2.5", "3", "", language) == both
    assert limits(None, "3", "%", language).replace("\u00a0", " ") == most
    assert limits("2.5", None, "%", language).replace("\u00a0", " ") == least
    assert limits(None, None, "%", language) == none
