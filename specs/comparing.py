"""How a known answer is compared with what was computed."""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Any, Self

from specs.judging.rounding import step_of
from specs.numbers import Number, Refused, to_decimal

_NUMBER = re.compile(
    r"(?P<sign>[<>]?)(?P<number>[+-]?[0-9]+(?:[.,][0-9]+)?(?:[eE]-?[0-9]+)?)"
)


class CaseRefused(Refused):
    """A case that cannot be run as it is written."""


class Kind(StrEnum):
    """What an answer is, and so how it is compared.

    A number agrees at the digits printed (half a unit of the last). A rounded one is
    the end of a rounding and agrees only when it is the same number.
    """

    NUMBER = "number"
    ROUNDED = "rounded"
    TEXT = "text"
    FLAG = "flag"


@dataclass(frozen=True)
class Margin:
    """How far the numbers of a case may lie from what it expects, where it says so."""

    tolerance: Fraction | None = None
    relative: Fraction | None = None

    @classmethod
    def of(cls, case: Mapping[str, Any]) -> Self:
        """The margin that a case states. Raises CaseRefused for one that is no distance."""
        stated = {
            key: number(case[key], key)
            for key in ("tolerance", "relative")
            if key in case
        }
        for key, distance in stated.items():
            if distance.is_censored or distance.value < 0:
                raise CaseRefused(f"“{key}” is {distance}: write a number from 0 on.")
        return cls(**{key: distance.exact for key, distance in stated.items()})

    def around(self, wanted: Number, kind: Kind) -> Fraction:
        """The greatest distance from an expected number; the wider when both are stated."""
        stated = [] if self.tolerance is None else [self.tolerance]
        if self.relative is not None:
            stated.append(self.relative * abs(wanted.exact))
        if stated:
            return max(stated)
        if kind is Kind.ROUNDED:
            return Fraction(0)
        return Fraction(step_of(wanted.value)) / 2


def agrees(kind: Kind, expected: object, got: object, margin: Margin) -> bool:
    """Whether an answer agrees with the expected one; a list place by place."""
    if expected is None or got is None:
        return expected is got
    if isinstance(expected, list):
        return _lists_agree(kind, expected, got, margin)
    if kind is Kind.FLAG:
        return expected is got
    if kind is Kind.TEXT:
        return isinstance(got, str) and expected == got
    return _numbers_agree(kind, number(expected, "expect"), got, margin)


def number(value: object, key: str) -> Number:
    """The number of a case: text as typed, with point or comma, or a whole number of JSON.

    Raises CaseRefused naming the key.
    """
    if isinstance(value, int) and not isinstance(value, bool):
        return Number.of(value)
    found = _NUMBER.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise CaseRefused(f"“{key}” is {value!r}: write a number, as text in quotes.")
    stored = f"{found['sign']}{Decimal(found['number'].replace(',', '.')):f}"
    return Number.stored(stored)


def plain(value: object) -> str:
    """What stands in a report for an answer: JSON with exact numbers."""
    return json.dumps(value, ensure_ascii=False, default=_as_text)


def _as_text(value: object) -> str:
    if isinstance(value, Fraction | Decimal):
        return f"{to_decimal(value):f}"
    return str(value)


def _lists_agree(kind: Kind, expected: list[Any], got: object, margin: Margin) -> bool:
    if not isinstance(got, list | tuple) or len(expected) != len(got):
        return False
    pairs = zip(expected, got, strict=True)
    return all(agrees(kind, wanted, found, margin) for wanted, found in pairs)


def _numbers_agree(kind: Kind, wanted: Number, got: object, margin: Margin) -> bool:
    if isinstance(got, Number):
        sign, value = got.sign, got.exact
    elif isinstance(got, Fraction | Decimal):
        sign, value = "", Fraction(got)
    else:
        return False
    return sign == wanted.sign and abs(value - wanted.exact) <= margin.around(
        wanted, kind
    )
