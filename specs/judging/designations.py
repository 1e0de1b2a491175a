"""Grease symbols decoded: "KPF2K-30" (DIN 51502) and "ISO-L-XBCHA 2" (ISO 6743-9), letter by letter."""

import re
from collections.abc import Collection
from dataclasses import dataclass

from specs.judging.grades import NLGI
from specs.judging.letters import (
    DIN,
    DIN_ADDITIVES,
    DIN_LOWER,
    DIN_UPPER,
    DIN_USES,
    DIN_WATER,
    EP,
    ISO,
    ISO_LOAD,
    ISO_LOWER,
    ISO_UPPER,
    ISO_WATER,
    Heat,
    Meaning,
    consistency,
    din_lower,
    din_upper,
    iso_lower,
    iso_upper,
    iso_water,
)
from specs.numbers import Refused

NUMBERS = tuple(number for number, _, _ in NLGI)

_DIN_FORM = re.compile(
    r"(?P<letters>[A-Z]+)(?P<number>[0-9]+)(?P<upper>[A-Z])(?P<lower>-[0-9]+)"
)
_ISO_FORM = re.compile(r"(ISO-?)?(L-?)?X-?(?P<letters>[A-Z]+)-?(?P<number>[0-9]+)")
_ISO_BEGINS = re.compile(r"ISO|L|X")
_ADDITIVES = re.compile(f"({'|'.join(DIN_ADDITIVES)})*")


class DesignationRefused(Refused):
    """A text that is no symbol of the two standards."""


@dataclass(frozen=True)
class Part:
    """One letter or number of a symbol, and what it says."""

    sign: str
    meaning: Meaning


@dataclass(frozen=True)
class Decoded:
    """A symbol, its parts in their order, and what two symbols are compared by."""

    symbol: str
    standard: str
    parts: tuple[Part, ...]
    number: str
    lower: Heat
    upper: Heat
    is_ep: bool

    @property
    def sentence(self) -> str:
        """The whole symbol in words."""
        says = "; ".join(part.meaning.says for part in self.parts)
        return f"{self.symbol} ({self.standard}): {says}."


def decode(text: str) -> Decoded:
    """The meaning of a symbol of DIN 51502 or of ISO 6743-9.

    Spaces and small letters are as good as none. Raises DesignationRefused naming
    the letter or number that the standard does not have.
    """
    symbol = " ".join(text.upper().replace("−", "-").replace("–", "-").split())
    plain = symbol.replace(" ", "")
    if _ISO_BEGINS.match(plain):
        return _iso(symbol, plain)
    return _din(symbol, plain)


def differences(one: Decoded, other: Decoded) -> tuple[str, ...]:
    """In what two symbols contradict each other, a sentence each; what only one says is no contradiction."""
    compared = (
        ("NLGI number", one.number, other.number, one.number == other.number),
        (
            "lower temperature",
            one.lower,
            other.lower,
            one.lower.agrees_with(other.lower),
        ),
        (
            "upper temperature",
            one.upper,
            other.upper,
            one.upper.agrees_with(other.upper),
        ),
        ("extreme pressure", _yes(one), _yes(other), one.is_ep is other.is_ep),
    )
    return tuple(
        f"{what}: {one.symbol} says {first}, {other.symbol} says {second}."
        for what, first, second, is_same in compared
        if not is_same
    )


def _yes(decoded: Decoded) -> str:
    return "yes" if decoded.is_ep else "no"


def _din(symbol: str, plain: str) -> Decoded:
    found = _DIN_FORM.fullmatch(plain)
    if found is None:
        raise DesignationRefused(
            f"“{symbol}” has not the form of {DIN}: letters, NLGI number, a letter and "
            "the lower temperature, such as KP2K-30."
        )
    use, additives = _din_letters(symbol, found["letters"])
    number, upper = found["number"], found["upper"]
    lower = found["lower"]
    _check(symbol, DIN, number, NUMBERS, "NLGI number")
    _check(symbol, DIN, upper, DIN_UPPER, "letter of the upper temperature")
    _check(symbol, DIN, lower, DIN_LOWER, "lower temperature")
    parts = (
        Part(use, DIN_USES[use]),
        *(Part(letter, DIN_ADDITIVES[letter]) for letter in additives),
        Part(number, consistency(number)),
        Part(upper, din_upper(upper)),
        Part(upper, DIN_WATER[upper]),
        Part(lower, din_lower(lower)),
    )
    ends = DIN_LOWER[lower], DIN_UPPER[upper]
    return Decoded(symbol, DIN, parts, number, *ends, is_ep=EP in additives)


def _din_letters(symbol: str, letters: str) -> tuple[str, list[str]]:
    """The letter of use and those of additives and oil."""
    use = "OG" if letters.startswith("OG") else letters[0]
    _check(symbol, DIN, use, DIN_USES, "letter of use")
    rest, additives = letters.removeprefix(use), []
    while rest:
        letter = _additive(rest)
        _check(symbol, DIN, letter, DIN_ADDITIVES, "letter of additives or oil")
        if letter in additives:
            raise DesignationRefused(f"“{letter}” stands twice in “{symbol}”.")
        additives.append(letter)
        rest = rest.removeprefix(letter)
    return use, additives


def _additive(rest: str) -> str:
    """The next letter or pair: the pair, unless the letters then make no sense (PHC is P and HC)."""
    known = [start for start in (rest[:2], rest[:1]) if start in DIN_ADDITIVES]
    for start in known:
        if _ADDITIVES.fullmatch(rest.removeprefix(start)):
            return start
    return known[0] if known else rest[0]


def _iso(symbol: str, plain: str) -> Decoded:
    found = _ISO_FORM.fullmatch(plain)
    if found is None or len(found["letters"]) != 4:
        raise DesignationRefused(
            f"“{symbol}” has not the form of {ISO}: L-X, four letters and the NLGI "
            "number, such as ISO-L-XBCHA 2."
        )
    lower, upper, water, load = tuple(found["letters"])
    number = found["number"]
    _check(symbol, ISO, lower, ISO_LOWER, "letter of the lower temperature")
    _check(symbol, ISO, upper, ISO_UPPER, "letter of the upper temperature")
    _check(symbol, ISO, water, ISO_WATER, "letter of water and rust")
    _check(symbol, ISO, load, ISO_LOAD, "letter of load")
    _check(symbol, ISO, number, NUMBERS, "NLGI number")
    parts = (
        Part(lower, iso_lower(lower)),
        Part(upper, iso_upper(upper)),
        Part(water, iso_water(water)),
        Part(load, ISO_LOAD[load]),
        Part(number, consistency(number)),
    )
    ends = ISO_LOWER[lower], ISO_UPPER[upper]
    return Decoded(symbol, ISO, parts, number, *ends, is_ep=load == "B")


def _check(
    symbol: str,
    standard: str,
    sign: str,
    known: Collection[str],
    what: str,
) -> None:
    if sign not in known:
        raise DesignationRefused(
            f"“{sign}” in “{symbol}” is no {what} of {standard}: "
            f"it has {', '.join(known)}."
        )
