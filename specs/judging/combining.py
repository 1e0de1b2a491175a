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
    the direction that is good. A bound may lie as far out as its sign allows: towards
    the bad it is worse than any number, towards the good it counts with its figure.
    None when nothing says which of them is worse.
    """
    if len(set(marks)) == 1:
        return 0
    badness = [_badness(judged_as(mark), scale, better) for mark in marks]
    known = [each for each in badness if each is not None]
    return badness.index(max(known)) if known and len(known) == len(marks) else None


def majority(marks: Sequence[str]) -> str:
    """The mark that more than half of them show, or nothing."""
    return next((each for each in marks if marks.count(each) * 2 > len(marks)), "")


Badness = tuple[bool, Decimal, bool]
"""Whether it may be bad without end, how bad it is, and whether it is just that."""


def _badness(mark: str, scale: Sequence[str], better: str) -> Badness | None:
    if scale:
        return (False, Decimal(scale.index(mark)), True) if mark in scale else None
    try:
        number = Number.stored(mark)
    except NumberRefused:
        return None
    value = number.value
    size = {LOWER: value, HIGHER: -value, NEARER_NOUGHT: abs(value)}.get(better)
    if size is None:
        return None
    good = {LOWER: "<", HIGHER: ">"}.get(better)
    without_end = number.is_censored and number.sign != good
    return without_end, size, not number.is_censored
