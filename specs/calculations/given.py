"""Reading what a known-answer case gives, each refusal naming its key."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from specs.comparing import CaseRefused, Kind, number
from specs.numbers import Number, Refused, read

Given = Mapping[str, Any]
Answers = dict[str, Any]


@dataclass(frozen=True)
class Calculation:
    """A function from given to answers, the source of its formula, and its keys."""

    function: Callable[[Given], Answers]
    source: str
    required: tuple[str, ...]
    gives: Mapping[str, Kind]
    optional: tuple[str, ...] = ()


def read_number(value: object, key: str) -> Number:
    """A number read as the screens read what is typed; a whole JSON number as it is."""
    return read(value) if isinstance(value, str) else number(value, key)


def numbers(values: object, key: str) -> list[Decimal]:
    """A list of plain numbers. Raises Refused for a bound among them."""
    if not isinstance(values, list):
        raise CaseRefused(f"“{key}” is {values!r}: write a list.")
    found = [read_number(value, key) for value in values]
    if any(it.is_censored for it in found):
        raise Refused(f"“{key}” holds a bound: a plain number is needed.")
    return [it.value for it in found]


def plain_number(given: Given, key: str) -> Decimal:
    return numbers([given[key]], key)[0]


def optional_number(given: Given, key: str) -> Decimal | None:
    return None if given.get(key) is None else plain_number(given, key)


def text_of(given: Given, key: str) -> str | None:
    """A text, or None where there is none. Raises CaseRefused for anything else."""
    value = given.get(key)
    if value is None or isinstance(value, str):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return str(value)
    raise CaseRefused(f"“{key}” is {value!r}: write it as text in quotes.")


def list_of(given: Given, key: str) -> list[Any]:
    if not isinstance(given[key], list):
        raise CaseRefused(f"“{key}” is {given[key]!r}: write a list.")
    return list(given[key])
