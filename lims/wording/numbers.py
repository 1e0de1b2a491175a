"""The one formatter of numbers: sign, decimal mark, unit. A result is never grouped and never rounded here."""

import re
from decimal import Decimal

from lims.wording.languages import Language

NO_BREAK = "\u00a0"
MINUS = "\u2212"
NUMBER = re.compile(r"([<>≤≥]?)\s*([+\-−]?)(\d+(?:[.,]\d*)?|[.,]\d+)", re.ASCII)
MARKS: dict[Language, str] = {"en": ".", "de": ",", "fr": ",", "es": ",", "pl": ","}
SCALED = re.compile(r"\d")


def shown(
    value: Decimal | int | str | None,
    language: Language = "en",
    *,
    signed: bool = False,
) -> str:
    """A result as people read it: ``280``, ``+22``, ``−3``, ``>288``, ``27,9`` where the language has a comma.

    Text that is no number (a rating such as ``1b``) comes back as it is.
    """
    if value is None:
        return ""
    text = str(value) if isinstance(value, str | int) else format(value, "f")
    found = NUMBER.fullmatch(text.strip())
    if found is None:
        return text
    beyond, sign, figures = found.groups()
    return f"{beyond}{_sign(sign, figures, signed=signed)}{_marked(figures, language)}"


def _sign(sign: str, figures: str, *, signed: bool) -> str:
    if not figures.strip("0.,"):
        return ""
    if sign in {"-", MINUS}:
        return MINUS
    return "+" if signed else ""


def _marked(figures: str, language: Language) -> str:
    mark = MARKS[language]
    return figures.replace(".", mark).replace(",", mark)


def counts(number: int) -> str:
    """A count with a space that does not break between thousands: ``100 000`` strokes, ``5 400`` kg."""
    return f"{number:,}".replace(",", NO_BREAK).replace("-", MINUS)


def unit_shown(unit: str, language: Language = "en") -> str:
    """A unit that begins with a figure is written as a factor, so that 28 never reads as 280.1."""
    text = _marked(unit, language) if SCALED.match(unit) else unit
    factor = f"×{NO_BREAK}" if SCALED.match(unit) else ""
    return f"{factor}{text}".replace(" ", NO_BREAK)


def with_unit(
    value: Decimal | int | str | None,
    unit: str,
    language: Language = "en",
    *,
    signed: bool = False,
) -> str:
    """A result and its unit, held together: ``280 × 0.1 mm``, ``2,8 %``."""
    figure = shown(value, language, signed=signed)
    if not figure or not unit:
        return figure
    return f"{figure}{NO_BREAK}{unit_shown(unit, language)}"
