"""Several marks to one: which of them is the worst, and what two of three show.

A rating, a finding and a value of a ladder are never averaged: they stand on an order,
and the distance between two of them says nothing. Common practice, no source.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from specs.numbers import Number, NumberRefused

MEAN, WORSE, TWO_OF_THREE = "mean", "the worse", "two of three"
WAYS = (MEAN, WORSE, TWO_OF_THREE)
LOWER, HIGHER, NEARER_NOUGHT = "lower", "higher", "nearer nought"


def worst_of(
    marks: Sequence[str],
    *,
    scale: Sequence[str] = (),
    better: str = "",
    judged_as: Callable[[str], str] = str,
) -> int | None:
    """The place of the worst mark, the first of equal ones.

    `scale` holds the marks of a rating, best first; numbers are compared by `better`,
    the direction that is good. None when nothing says which of them is worse.
    """
    if len(set(marks)) == 1:
        return 0
    badness = [_badness(judged_as(mark), scale, better) for mark in marks]
    known = [each for each in badness if each is not None]
    return badness.index(max(known)) if known and len(known) == len(marks) else None


def majority(marks: Sequence[str]) -> str:
    """The mark that more than half of them show, or nothing."""
    return next((each for each in marks if marks.count(each) * 2 > len(marks)), "")


def _badness(mark: str, scale: Sequence[str], better: str) -> Decimal | None:
    if scale:
        return Decimal(scale.index(mark)) if mark in scale else None
    try:
        value = Number.stored(mark).value
    except NumberRefused:
        return None
    return {LOWER: value, HIGHER: -value, NEARER_NOUGHT: abs(value)}.get(better)
