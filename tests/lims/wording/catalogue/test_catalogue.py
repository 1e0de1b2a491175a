"""One catalogue: each sentence stands once a language, with the same open places, typographic marks and no language left out."""

import dataclasses
import string
from collections.abc import Iterator

import pytest

from lims.wording.catalogue import numbers, times, whole
from lims.wording.catalogue.said import NO_BREAK, Counted, Said
from lims.wording.languages import IN_ENGLISH, LANGUAGES, OF_THEMSELVES, known
from lims.wording.plurals import category

ALIKE = {  # what a language says with the very letters of English
    *("page", "Dates", "Verdict", "Grade", "auditor", "Questions", "CET", "CEST"),
    *("{packs}, {mass} kg net", "in {words}"),
}
FORMS = {"pl": 3}  # one, few, many; every other language has one and others
SAID = [
    pytest.param(said, id=f"{shelf}: {key}")
    for shelf, sentences in whole.SHELVES.items()
    for key, said in sentences.items()
]
COUNTED = [
    pytest.param(counted, id=f"{shelf}: {key}")
    for shelf, sentences in whole.COUNTED_SHELVES.items()
    for key, counted in sentences.items()
]


def places(phrase: str) -> set[str | None]:
    return {name for _, name, _, _ in string.Formatter().parse(phrase) if name}


def everything() -> Iterator[tuple[str, str]]:
    """Each sentence of the catalogue as it is printed, with its language."""
    for language in LANGUAGES:
        for shelf in whole.SHELVES.values():
            yield from ((language, said.into(language)) for said in shelf.values())
        for counts in whole.COUNTED_SHELVES.values():
            for counted in counts.values():
                for number in (1, 2, 5):
                    yield language, counted.into(number, language)


def test_a_sentence_has_a_place_for_every_language() -> None:
    for kind in (Said, Counted):
        assert tuple(it.name for it in dataclasses.fields(kind)) == LANGUAGES
    assert tuple(IN_ENGLISH) == tuple(OF_THEMSELVES) == LANGUAGES


def test_a_sentence_without_one_of_the_languages_cannot_be_made() -> None:
    with pytest.raises(TypeError, match="'pl'"):
        Said(en="Batch", de="Charge", fr="fabrication", es="fabricación")  # type: ignore[call-arg]


@pytest.mark.parametrize("said", SAID)
def test_a_phrase_says_something_and_leaves_the_same_places_open(said: Said) -> None:
    for language in LANGUAGES:
        text = said.into(language)
        assert text.strip()
        assert places(text) == places(said.en)


@pytest.mark.parametrize("counted", COUNTED)
def test_a_counted_phrase_has_every_form_of_its_language(counted: Counted) -> None:
    several = places(counted.en[-1])
    for language in LANGUAGES:
        forms = getattr(counted, language)
        assert len(forms) == FORMS.get(language, 2)
        assert all(places(form) <= several for form in forms)
        assert all(places(form) == several for form in forms[1:])


def test_no_sentence_was_left_in_english() -> None:
    left = {
        said.en
        for shelf in whole.SHELVES.values()
        for said in shelf.values()
        for language in LANGUAGES[1:]
        if said.into(language) == said.en and _has_words(said.en)
    }
    counted = {
        it.en
        for shelf in whole.COUNTED_SHELVES.values()
        for it in shelf.values()
        for language in LANGUAGES[1:]
        if it.into(5, language) == it.into(5, "en")
    }

    assert (left, counted) == (ALIKE, set())


def _has_words(phrase: str) -> bool:
    bare = "".join(text for text, *_ in string.Formatter().parse(phrase))
    return any(sign.isalpha() for sign in bare)


def test_no_sentence_has_a_straight_quote() -> None:
    straight = [text for _, text in everything() if "'" in text or '"' in text]

    assert straight == []


def test_no_french_mark_stands_after_a_space_that_breaks() -> None:
    french = [text for language, text in everything() if language == "fr"]

    assert [it for it in french if any(f" {mark}" in it for mark in ";:?!%»")] == []
    bare = [
        it
        for it in french
        for mark in (";", ":", "?", "!", "%")
        if any(before != NO_BREAK for before in _before(it, mark))
    ]
    assert bare == []


def _before(text: str, mark: str) -> list[str]:
    return [text[at - 1] for at, sign in enumerate(text) if sign == mark and at]


def test_numbers_and_names_of_months_and_days_are_whole() -> None:
    for language in LANGUAGES:
        assert len(numbers.NUMBERS[language]) == 21
        assert len(set(times.MONTHS[language])) == 12
        assert len(set(times.WEEKDAYS[language])) == 7


def test_a_language_that_is_not_spoken_here_falls_back_to_english() -> None:
    assert [known(it) for it in ("pl", "it", "")] == ["pl", "en", "en"]


@pytest.mark.parametrize("number", [0, 1, 2, 4, 5, 11, 12, 22, 25, 101, 112, 122])
def test_packs_take_the_form_of_their_count_in_polish(number: int) -> None:
    form = {"one": "beczka", "few": "beczki", "many": "beczek"}
    counted = whole.COUNTED_SHELVES["packs"]["drum"]

    assert counted.into(number, "pl") == form[category(number, "pl")]
