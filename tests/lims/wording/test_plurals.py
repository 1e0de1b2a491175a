"""Plural categories of whole numbers, against the rules of CLDR (Unicode TR 35), stated here from memory."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lims.wording.languages import LANGUAGES
from lims.wording.plurals import category

COUNTS = st.integers(min_value=0, max_value=999_999)


@pytest.mark.parametrize(
    ("number", "polish"),
    [
        *[(0, "many"), (1, "one"), (2, "few"), (3, "few"), (4, "few"), (5, "many")],
        *[(11, "many"), (12, "many"), (13, "many"), (14, "many"), (15, "many")],
        *[(20, "many"), (21, "many"), (22, "few"), (24, "few"), (25, "many")],
        *[(100, "many"), (101, "many"), (102, "few"), (112, "many"), (122, "few")],
        *[(1000, "many"), (1002, "few"), (1012, "many")],
    ],
)
def test_polish_has_one_few_and_many(number: int, polish: str) -> None:
    assert category(number, "pl") == polish


@given(COUNTS)
def test_polish_few_ends_in_two_to_four_but_not_in_the_teens(number: int) -> None:
    """CLDR pl: few is v = 0 and i % 10 = 2..4 and i % 100 != 12..14; one is i = 1 and v = 0."""
    digits = f"{number:02d}"
    is_few = digits[-1] in "234" and digits[-2] != "1"

    assert (category(number, "pl") == "few") is is_few
    assert (category(number, "pl") == "one") is (number == 1)


@given(COUNTS)
def test_only_french_takes_nought_as_one(number: int) -> None:
    """CLDR: one is i = 0, 1 in French, n = 1 in Spanish, i = 1 and v = 0 in English and German."""
    for language in LANGUAGES:
        if language != "pl":
            ones = {0, 1} if language == "fr" else {1}
            assert category(number, language) == ("one" if number in ones else "other")
