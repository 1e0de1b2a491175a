"""A stated requirement as plain data: the code of its characteristic, its limits as text, its conditions in words."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from specs.numbers import NumberRefused, read

_DEGREES = re.compile(r"(?P<degrees>[-−–]?[0-9]+) ?°C")


@dataclass(frozen=True)
class Stated:
    """One requirement of the kind limit. `name` is the characteristic in words, for sentences."""

    characteristic: str
    lower: str = ""
    upper: str = ""
    conditions: str = ""
    name: str = ""

    @property
    def least(self) -> Decimal | None:
        """The lower limit, None where it is no number."""
        return _number(self.lower)

    @property
    def most(self) -> Decimal | None:
        """The upper limit, None where it is no number."""
        return _number(self.upper)

    @property
    def degrees(self) -> int | None:
        """The temperature named in the conditions, the last where there are several."""
        found = _DEGREES.findall(self.conditions)
        return int(found[-1].replace("−", "-").replace("–", "-")) if found else None

    def is_of(self, words: Sequence[str]) -> bool:
        """Whether the characteristic's code holds one of the words as a whole."""
        return any(f"-{word}-" in f"-{self.characteristic}-" for word in words)

    def __str__(self) -> str:
        named = self.name or self.characteristic
        what = f"{named}, {self.conditions}" if self.conditions else named
        if self.lower and self.upper:
            return f"{what}: {self.lower} to {self.upper}"
        if self.lower:
            return f"{what}: at least {self.lower}"
        return f"{what}: at most {self.upper}" if self.upper else what


def _number(text: str) -> Decimal | None:
    try:
        number = read(text)
    except NumberRefused:
        return None
    return None if number.is_censored else number.value
