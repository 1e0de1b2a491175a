"""Limits in words: ``265 to 295``, ``at most +30``, ``at least 190 °C``."""

from decimal import Decimal

from lims.wording.languages import Language
from lims.wording.numbers import shown, with_unit

Limit = Decimal | int | str | None

WORDS: dict[Language, dict[str, str]] = {
    "en": {"to": "to", "most": "at most", "least": "at least", "none": "no limit"},
    "de": {
        "to": "bis",
        "most": "höchstens",
        "least": "mindestens",
        "none": "keine Grenze",
    },
}


def limits(
    lower: Limit,
    upper: Limit,
    unit: str = "",
    language: Language = "en",
    *,
    signed: bool = False,
) -> str:
    """The limits of a requirement as a reader says them."""
    words = WORDS[language]
    if lower is None and upper is None:
        return words["none"]
    if lower is None:
        return f"{words['most']} {with_unit(upper, unit, language, signed=signed)}"
    if upper is None:
        return f"{words['least']} {with_unit(lower, unit, language, signed=signed)}"
    first = shown(lower, language, signed=signed)
    return f"{first} {words['to']} {with_unit(upper, unit, language, signed=signed)}"
