"""The password rule: long, not on a list, and not made of words that anyone would guess here."""

import re
from typing import Any

from django.core.exceptions import ValidationError

from lims.people.names import password_form

SHORTEST, LONGEST = 15, 256
FEWEST_OWN = 8  # letters and digits that must be left without the guessable words
FEWEST_DIFFERENT = 5

TRADE_WORDS = frozenset(
    """
    kettlemark quernstone grease greaseworks laboratory lab kettle lithium calcium
    penetration dropping point batch sample retain certificate technician manager
    quality technologist despatch auditor administrator admin password passphrase
    welcome letmein qwerty qwertyuiop qwertz asdfghjkl azerty abcdefgh 12345678
    1234567890 0123456789 87654321
    """.split()  # noqa: SIM905 - a page of words, not a list
)


class LengthRule:
    """At least 15 characters, at most 256; nothing is asked about kinds of characters."""

    def validate(self, password: str, user: Any = None) -> None:
        length = len(password_form(password))
        if length < SHORTEST:
            raise ValidationError(
                f"This password has {length} characters. It needs at least {SHORTEST}: "
                "four or five words that do not belong together are easy to keep.",
                code="too_short",
            )
        if length > LONGEST:
            raise ValidationError(
                f"This password has {length} characters; {LONGEST} is the most.",
                code="too_long",
            )

    def get_help_text(self) -> str:
        return (
            f"At least {SHORTEST} characters, any you like. Four or five words that do "
            "not belong together are easy to keep."
        )


class BlockedWords:
    """Not made of the plant's, the trade's or the person's own words, nor of repetition."""

    def validate(self, password: str, user: Any = None) -> None:
        text = password_form(password).casefold()
        if len(set(text)) < FEWEST_DIFFERENT:
            raise ValidationError(
                "This password repeats a few characters. Use more different ones.",
                code="repeated",
            )
        found, rest = _taken_out(text, TRADE_WORDS | _site_words() | _own_words(user))
        if found and len(rest) < FEWEST_OWN:
            raise ValidationError(
                f"This password is little more than “{found[0]}”, which anyone would "
                "try here first. Add words that have nothing to do with the work or you.",
                code="guessable",
            )

    def get_help_text(self) -> str:
        return "Not made of your name, the plant's name or words of the trade."


def _taken_out(text: str, words: frozenset[str]) -> tuple[list[str], str]:
    found = []
    for word in sorted(words, key=lambda word: (-len(word), word)):
        if word in text:
            found.append(word)
            text = text.replace(word, " ")
    return found, re.sub(r"[\W_]", "", text)


def _own_words(user: Any) -> frozenset[str]:
    if user is None:
        return frozenset()
    mail = str(getattr(user, "mail", "")).partition("@")[0]
    return _words_of(str(user.account), str(user.name), mail)


def _site_words() -> frozenset[str]:
    from lims.people.models import Site  # the validators are loaded before the models

    texts = Site.objects.values_list("code", "name", "laboratory").first()
    return _words_of(*(texts or ()))


def _words_of(*texts: str) -> frozenset[str]:
    forms = [password_form(text).casefold() for text in texts]
    return frozenset(
        word
        for form in forms
        for word in [form, *re.split(r"[\W_]+", form)]
        if len(word) > 1
    )
