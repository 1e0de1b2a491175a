"""Limits written as one text: "265-295", "min. 190", "≤ 70", "max 1b". Read, or refused with what to write."""

import re
from dataclasses import dataclass

from specs.numbers import Number, Refused, read

_NUMBER = r"[+-]?[0-9]+(?:[.,][0-9]+)?"
_RANGE = re.compile(
    rf"(?P<low>{_NUMBER}) *(?:-|–|—|\.\.\.?|…|to|bis|/) *(?P<high>{_NUMBER})"
)
_END = rf"(?P<it>{_NUMBER}|[0-9a-z]{{1,3}})"  # a number, or a mark such as 1b
_AT_LEAST = re.compile(rf"(?:min(?:\.|imum)?|mind\.|mindestens|at least|≥|>=) *{_END}")
_AT_MOST = re.compile(rf"(?:max(?:\.|imum)?|höchstens|at most|≤|<=) *{_END}")
_MOST_BEHIND = re.compile(rf"{_END} *(?:max(?:\.|imum)?)")
_LEAST_BEHIND = re.compile(rf"{_END} *(?:min(?:\.|imum)?|mind\.)")  # or minutes
_STRICT = re.compile(rf"[<>] *{_NUMBER}")
_SPREAD = re.compile(rf"(?P<it>{_NUMBER}) *(?:±|\+/-|\+-) *(?P<by>{_NUMBER})")


class LimitsRefused(Refused):
    """A text that could be read as limits in more than one way, or in none."""


@dataclass(frozen=True)
class LimitTexts:
    """The limits of one cell: numbers in canonical form, a mark, or words that must be met."""

    lower: str = ""
    upper: str = ""
    must: str = ""

    @property
    def in_words(self) -> str:
        """As it is said back: "265 to 295", "at most 70"."""
        if self.must:
            return self.must
        if self.lower and self.upper:
            return f"{self.lower} to {self.upper}"
        return f"at least {self.lower}" if self.lower else f"at most {self.upper}"


def read_limits(text: str) -> LimitTexts:
    """The limits that a cell states; what is neither number nor sign must be met as words.

    Raises LimitsRefused for a number alone, for what can be minutes, and for < and >, which leave open whether the
    limit itself is allowed.
    """
    typed = " ".join(text.split())
    small = typed.casefold()
    if found := _RANGE.fullmatch(small):
        return _ordered(_plain(found["low"]), _plain(found["high"]), typed)
    if found := _SPREAD.fullmatch(small):
        middle, by = read(found["it"]).value, read(found["by"]).value
        return LimitTexts(
            Number.of(middle - by).canonical, Number.of(middle + by).canonical
        )
    if found := _AT_LEAST.fullmatch(small):
        return LimitTexts(lower=_plain(found["it"]))
    if found := _AT_MOST.fullmatch(small) or _MOST_BEHIND.fullmatch(small):
        return LimitTexts(upper=_plain(found["it"]))
    _refuse_unclear(small, typed)
    return LimitTexts(must=typed)


def _refuse_unclear(small: str, typed: str) -> None:
    if _STRICT.fullmatch(small):
        sign = "at most" if small.startswith("<") else "at least"
        raise LimitsRefused(
            f"“{typed}” leaves open whether {small[1:].strip()} itself is allowed: write "
            f"“{sign} {small[1:].strip()}” where it is."
        )
    if found := _LEAST_BEHIND.fullmatch(small):
        raise LimitsRefused(
            f"“{typed}” can mean a least value or minutes: write “at least {found['it']}” "
            "where it is a limit."
        )
    if re.fullmatch(_NUMBER, small):
        raise LimitsRefused(
            f"“{typed}” does not say on which side it is a limit: write “at least {typed}”, "
            f"“at most {typed}” or both ends."
        )


def _ordered(low: str, high: str, typed: str) -> LimitTexts:
    if read(low).value > read(high).value:
        raise LimitsRefused(
            f"“{typed}” begins above its end: write the lower limit first."
        )
    return LimitTexts(low, high)


def _plain(text: str) -> str:
    """A number in its plain form; a mark as it stands."""
    try:
        return read(text).canonical
    except Refused:
        return text.strip()
