"""Where a value of the past lies beside the limits of today: within, beyond, or not known. Never called a verdict."""

from decimal import Decimal
from functools import lru_cache

from specs.judging.conformity import ABSOLUTE, judge, judge_rating
from specs.judging.verdicts import Judgement, Verdict
from specs.numbers import Number, NumberRefused, read
from specs.tables.known import Limits, Measured
from specs.tables.texts.marks import JOINT, WORDS

WITHIN, BEYOND, NOT_KNOWN = "within", "beyond", "not known"
_SAID = {Verdict.MET: WITHIN, Verdict.NOT_MET: BEYOND}


def beside(value: str, limits: Limits | None, measured: Measured) -> str:
    """Within, beyond or not known; empty where there is no limit.

    The value is compared as it stands, without rounding it to the limit. A bound lies
    within or beyond only where every value behind it does. Ratings go by the order of
    their scale, the worse of two joined ones. Raises nothing.
    """
    if limits is None or not (limits.lower or limits.upper):
        return ""
    if measured.kind == WORDS:
        return NOT_KNOWN
    if measured.scale:
        return _of_rating(value, limits, measured)
    try:
        number = Number.stored(value)
        lower, upper = _end(limits.lower), _end(limits.upper)
    except NumberRefused:
        return NOT_KNOWN
    if not number.is_censored:
        return _of_number(number.value, lower, upper)
    found = judge(number, limits.lower or None, limits.upper or None, ABSOLUTE)
    return _SAID.get(found.verdict, NOT_KNOWN)


def _of_number(value: Decimal, lower: Decimal | None, upper: Decimal | None) -> str:
    """The absolute procedure, for many values at once."""
    is_beyond = (lower is not None and value < lower) or (
        upper is not None and value > upper
    )
    return BEYOND if is_beyond else WITHIN


@lru_cache(maxsize=1024)
def _end(limit: str) -> Decimal | None:
    return read(limit).value if limit.strip() else None


def _of_rating(value: str, limits: Limits, measured: Measured) -> str:
    found: list[Judgement] = [
        judge_rating(mark, limits.upper, measured.scale) for mark in value.split(JOINT)
    ]
    said = [_SAID.get(it.verdict, NOT_KNOWN) for it in found]
    return next((it for it in (BEYOND, NOT_KNOWN) if it in said), WITHIN)
