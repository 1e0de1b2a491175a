"""Limits in words: ``265 to 295``, ``at most +30``, ``at least 190 °C``."""

from decimal import Decimal

from lims.wording.catalogue.bounds import SENTENCES
from lims.wording.languages import Language
from lims.wording.numbers import shown, with_unit

Limit = Decimal | int | str | None


def limits(
    lower: Limit,
    upper: Limit,
    unit: str = "",
    language: Language = "en",
    *,
    signed: bool = False,
) -> str:
    """The limits of a requirement as a reader says them."""
    if lower is None and upper is None:
        return SENTENCES["none"].into(language)
    key = "most" if lower is None else "least" if upper is None else "to"
    first = shown(lower, language, signed=signed)
    if upper is None:
        first = with_unit(lower, unit, language, signed=signed)
    last = with_unit(upper, unit, language, signed=signed)
    return SENTENCES[key].into(language).format(lower=first, upper=last)
