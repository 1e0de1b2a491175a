"""The languages that pages and papers speak."""

from typing import Literal

Language = Literal["en", "de"]
LANGUAGES: tuple[Language, ...] = ("en", "de")


def known(language: str) -> Language:
    """The language itself, or English where it is not spoken here."""
    return "de" if language == "de" else "en"
