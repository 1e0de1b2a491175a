"""A value against its limits, by the absolute or the rounding procedure (ASTM E29).

E29 has no default: a line that names no procedure is refused. Limits are text because
their decimals carry meaning: 0.5 and 0.50 differ. Where accepted values end (an edge)
and to which step the value is rounded are kept apart: a decision rule moves the edge,
the step stays that of the limit's own text.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from specs.judging.rounding import check_tie, round_to_step, step_of
from specs.judging.verdicts import Judgement, Verdict, worst
from specs.judging.zones import Zone
from specs.numbers import Number, Refused, read

ROUNDING, ABSOLUTE = "rounding", "absolute"
PROCEDURES = (ROUNDING, ABSOLUTE)


class ProcedureMissing(Refused):
    """A requirement line names no procedure for comparing."""


class LimitRefused(Refused):
    """Limits that cannot be compared with."""


def judge(
    value: Number,
    lower: str | None,
    upper: str | None,
    procedure: str | None,
    *,
    tie: str = "even",
    step: str | None = None,
    zone: Zone | None = None,
) -> Judgement:
    """The verdict on an unrounded value against a lower and an upper limit.

    Rounding: the value is rounded once, for each limit to the last place of that
    limit's text (or to `step`), then compared; `compared` is the value as rounded
    for the limit nearest to it. Absolute: the unrounded value is compared. A bound
    (">288", "<2") meets or fails a limit only where every value beyond it does.
    Of two limits the worse verdict stands. With a `zone` its ends are compared with
    instead of the limits, which go on giving the steps. Input that makes no sense
    gives *not evaluated*. Raises ProcedureMissing unless `procedure` is one of the two.
    """
    if procedure not in PROCEDURES:
        raise ProcedureMissing(
            f"“{procedure or ''}” is no procedure for comparing: a line must name one, "
            "rounding or absolute."
        )
    try:
        check_tie(tie)
        edges = _edges(lower, upper, zone)
        return _judged(value, edges, _Comparison(procedure, tie, step))
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


@dataclass(frozen=True)
class _Limit:
    """A limit as a plain number, with one unit of the last digit of its text."""

    text: str
    value: Decimal
    step: Decimal


@dataclass(frozen=True)
class _Edge:
    """The limit whose step rounds the value, and where accepted values end."""

    limit: _Limit
    at: Decimal
    breaks: Callable[[Decimal, Decimal], bool]
    beyond: str  # the sign of a bound that lies on the breaking side

    @property
    def is_the_limit(self) -> bool:
        return self.at == self.limit.value


@dataclass(frozen=True)
class _Comparison:
    """How one value is compared with one edge."""

    procedure: str
    tie: str
    step: str | None

    @property
    def rounds(self) -> bool:
        return self.procedure == ROUNDING

    def compared(self, value: Number, limit: _Limit) -> Decimal:
        if not self.rounds:
            return value.value
        step = limit.step if self.step is None else read(self.step).value
        return round_to_step(value.value, step, self.tie)

    def verdict(self, value: Number, edge: _Edge) -> Verdict:
        """The verdict with one edge.

        A bound with the sign `beyond` lies on the breaking side of its value, one with
        the other sign on the keeping side. Off the limit itself a rounded value can lie
        on the other side of the edge than the unrounded one: a bound then decides only
        where both agree.
        """
        if not value.is_censored:
            broken = edge.breaks(self.compared(value, edge.limit), edge.at)
            return Verdict.NOT_MET if broken else Verdict.MET
        ends = {edge.breaks(value.value, edge.at)}
        if self.rounds and not edge.is_the_limit:
            ends.add(edge.breaks(self.compared(value, edge.limit), edge.at))
        if value.sign != edge.beyond:
            return Verdict.MET if ends == {False} else Verdict.NOT_EVALUATED
        at_edge = value.value == edge.at and not self.rounds
        return Verdict.NOT_MET if ends == {True} or at_edge else Verdict.NOT_EVALUATED


def _above(number: Decimal, end: Decimal) -> bool:
    return number > end


def _below(number: Decimal, end: Decimal) -> bool:
    return number < end


def _judged(
    value: Number, edges: Sequence[_Edge], comparison: _Comparison
) -> Judgement:
    if not value.value.is_finite():
        raise LimitRefused("Only a finite number can be held against a limit.")
    verdicts = [comparison.verdict(value, edge) for edge in edges]
    nearest = _nearest(value, edges)
    if value.is_censored:
        compared = value.canonical
    else:
        compared = Number.of(comparison.compared(value, nearest)).canonical
    return Judgement(worst(verdicts), compared=compared, limit=nearest.text)


def _nearest(value: Number, edges: Sequence[_Edge]) -> _Limit:
    """The limit nearest to the value; the upper one when both are as near."""
    low, high = edges[0].limit, edges[-1].limit
    at = Fraction(value.value)
    return low if at - Fraction(low.value) < Fraction(high.value) - at else high


def _edges(lower: str | None, upper: str | None, zone: Zone | None) -> list[_Edge]:
    """One edge a limit, the lower one first."""
    low, high = _limit(lower or ""), _limit(upper or "")
    if low is None and high is None:
        raise LimitRefused("There is no limit to compare with.")
    if low is not None and high is not None and low.value > high.value:
        raise LimitRefused(
            f"The lower limit {low.text} is above the upper limit {high.text}."
        )
    edges = []
    if low is not None:
        at = low.value if zone is None or zone.lower is None else zone.lower
        edges.append(_Edge(low, at, _below, beyond="<"))
    if high is not None:
        at = high.value if zone is None or zone.upper is None else zone.upper
        edges.append(_Edge(high, at, _above, beyond=">"))
    return edges


@lru_cache(maxsize=1024)
def _limit(text: str) -> _Limit | None:
    """A limit's text as a plain number, None when there is no limit."""
    if not text.strip():
        return None
    number = read(text)
    if number.is_censored:
        raise LimitRefused(f"A limit is a plain number, not “{text}”.")
    return _Limit(number.canonical, number.value, step_of(number.canonical))
