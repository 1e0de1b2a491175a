"""A sentence in every language. None can be left out: a `Said` without one of them cannot be made, and mypy says so before."""

import re
from dataclasses import dataclass

from lims.wording.languages import Language
from lims.wording.plurals import Category, category

NO_BREAK = "\u00a0"
BEFORE_HIGH_MARKS = re.compile(r" (?=[;:?!%»])|(?<=«) ")
PLACES: dict[Category, int] = {"one": 0, "few": 1, "many": 2, "other": 1}


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One sentence, word or phrase; `{parts}` are filled in by who says it."""

    en: str
    de: str
    fr: str
    es: str
    pl: str

    def into(self, language: Language) -> str:
        text: str = getattr(self, language)
        return set_in_type(text, language)


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A sentence that depends on a count: one and others; in Polish one, few, many."""

    en: tuple[str, str]
    de: tuple[str, str]
    fr: tuple[str, str]
    es: tuple[str, str]
    pl: tuple[str, str, str]

    def into(self, number: int, language: Language) -> str:
        forms: tuple[str, ...] = getattr(self, language)
        return set_in_type(forms[PLACES[category(number, language)]], language)


def set_in_type(text: str, language: Language) -> str:
    """In French, the space before high marks and within quotes does not break."""
    return BEFORE_HIGH_MARKS.sub(NO_BREAK, text) if language == "fr" else text
