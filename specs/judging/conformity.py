"""A value against its limits, by the absolute or the rounding procedure (ASTM E29).

E29 has no default: a line that names no procedure is refused. Limits are text because
their decimals carry meaning: 0.5 and 0.50 differ.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal

from specs.judging.rounding import check_tie, round_to_step, step_of
from specs.judging.verdicts import Judgement, Verdict, worst
from specs.numbers import Number, Refused, read

ROUNDING, ABSOLUTE = "rounding", "absolute"
PROCEDURES = (ROUNDING, ABSOLUTE)


class ProcedureMissing(Refused):
    """A requirement line names no procedure for comparing."""


def judge(
    value: Number,
    lower: str | None,
    upper: str | None,
    procedure: str | None,
    *,
    tie: str = "even",
    step: str | None = None,
) -> Judgement:
    """The verdict on an unrounded value against a lower and an upper limit.

    Rounding: the value is rounded once, for each limit to the last place of that
    limit's text (or to `step`), then compared; `compared` is the value as rounded
    for the limit nearest to it. Absolute: the unrounded value is compared. A bound
    (">288", "<2") meets or fails a limit only where every value beyond it does.
    Of two limits the worse verdict stands. Input that makes no sense gives *not
    evaluated*. Raises ProcedureMissing unless `procedure` is one of the two.
    """
    if procedure not in PROCEDURES:
        raise ProcedureMissing(
            f"“{procedure or ''}” is no procedure for comparing: a line must name one, "
            "rounding or absolute."
        )
    try:
        check_tie(tie)
        low, high = _limit(lower), _limit(upper)
        steps = {text: _step(text, step) for text in (low, high) if text}
        return _judged(value, low, high, _Comparison(procedure, tie, steps))
    except Refused as refusal:
        return Judgement(Verdict.NOT_EVALUATED, why=refusal.sentence)


def judge_rating(value: str, upper: str, scale: Sequence[str]) -> Judgement:
    """The verdict on a rating of an ordered scale, its best mark first.

    `upper` is the worst rating allowed. A rating that is not on the scale gives *not
    evaluated*.
    """
    places = {mark.casefold(): place for place, mark in enumerate(scale)}
    found = places.get(value.strip().casefold())
    allowed = places.get(upper.strip().casefold())
    if found is None or allowed is None:
        stranger = value if found is None else upper
        why = f"“{stranger}” is not on the scale {', '.join(scale)}."
        return Judgement(Verdict.NOT_EVALUATED, why=why)
    verdict = Verdict.MET if found <= allowed else Verdict.NOT_MET
    return Judgement(verdict, compared=scale[found], limit=scale[allowed])


class LimitRefused(Refused):
    """Limits that cannot be compared with."""


class _Comparison:
    """How one value is compared with one limit."""

    def __init__(self, procedure: str, tie: str, steps: dict[str, Decimal]) -> None:
        self.rounds = procedure == ROUNDING
        self.tie = tie
        self.steps = steps

    def compared(self, value: Number, limit: str) -> Decimal:
        if not self.rounds:
            return value.value
        return round_to_step(value.value, self.steps[limit], self.tie)

    def with_upper(self, value: Number, limit: str) -> Verdict:
        return self._with(value, limit, _above, beyond=">")

    def with_lower(self, value: Number, limit: str) -> Verdict:
        return self._with(value, limit, _below, beyond="<")

    def _with(
        self,
        value: Number,
        limit: str,
        fails: Callable[[Decimal, Decimal], bool],
        beyond: str,
    ) -> Verdict:
        """The verdict with one limit, which a number breaks when it `fails`.

        A value with the sign `beyond` lies on the breaking side of its bound, one
        with the other sign on the keeping side.
        """
        bound = read(limit).value
        if not value.is_censored:
            broken = fails(self.compared(value, limit), bound)
            return Verdict.NOT_MET if broken else Verdict.MET
        if value.sign != beyond:
            kept = not fails(value.value, bound)
            return Verdict.MET if kept else Verdict.NOT_EVALUATED
        at_limit = value.value == bound and not self.rounds
        broken = fails(value.value, bound) or at_limit
        return Verdict.NOT_MET if broken else Verdict.NOT_EVALUATED


def _above(number: Decimal, bound: Decimal) -> bool:
    return number > bound


def _below(number: Decimal, bound: Decimal) -> bool:
    return number < bound


def _judged(
    value: Number, low: str | None, high: str | None, comparison: _Comparison
) -> Judgement:
    if not value.value.is_finite():
        raise LimitRefused("Only a finite number can be held against a limit.")
    verdicts = []
    if low:
        verdicts.append(comparison.with_lower(value, low))
    if high:
        verdicts.append(comparison.with_upper(value, high))
    nearest = _nearest(value, low, high)
    if value.is_censored:
        compared = value.canonical
    else:
        compared = Number.of(comparison.compared(value, nearest)).canonical
    return Judgement(worst(verdicts), compared=compared, limit=nearest)


def _nearest(value: Number, low: str | None, high: str | None) -> str:
    """The limit nearest to the value; the upper one when both are as near."""
    if low is None or high is None:
        only = low or high
        if only is None:
            raise LimitRefused("There is no limit to compare with.")
        return only
    bottom, top = read(low).exact, read(high).exact
    if bottom > top:
        raise LimitRefused(f"The lower limit {low} is above the upper limit {high}.")
    return low if value.exact - bottom < top - value.exact else high


def _limit(text: str | None) -> str | None:
    """A limit's text as a plain number, None when there is no limit."""
    if text is None or not text.strip():
        return None
    number = read(text)
    if number.is_censored:
        raise LimitRefused(f"A limit is a plain number, not “{text}”.")
    return number.canonical


def _step(limit: str, step: str | None) -> Decimal:
    return step_of(limit) if step is None else read(step).value
