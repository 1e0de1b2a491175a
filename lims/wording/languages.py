"""The languages that papers and the check page speak. A language is added here, and `Said` then asks for each of its sentences."""

from typing import Literal, get_args

Language = Literal["en", "de", "fr", "es", "pl"]
LANGUAGES: tuple[Language, ...] = get_args(Language)
IN_ENGLISH: dict[Language, str] = {
    "en": "English",
    "de": "German",
    "fr": "French",
    "es": "Spanish",
    "pl": "Polish",
}
OF_THEMSELVES: dict[Language, str] = {
    "en": "English",
    "de": "Deutsch",
    "fr": "Français",
    "es": "Español",
    "pl": "Polski",
}


def known(language: str) -> Language:
    """The language itself, or English where it is not spoken here."""
    return next((it for it in LANGUAGES if it == language), "en")
