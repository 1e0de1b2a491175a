"""Decision rules by name: how a value, its limits and an uncertainty become a verdict.

A rule moves the edges that a value is held against; the procedure for comparing, absolute
or rounding, stays what the line names. ISO/IEC 17025, 3.7 and 7.8.6; JCGM 106; ISO 4259-2.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum
from fractions import Fraction
from functools import lru_cache

from specs.judging.conformity import judge
from specs.judging.constants import EXACT
from specs.judging.rounding import step_of
from specs.judging.verdicts import Judgement, Verdict
from specs.judging.zones import (
    USUAL_CONFIDENCE,
    Zone,
    guard_width,
    zone_drawn_in,
)
from specs.numbers import Number, Refused, read, shortened

SIMPLE_ACCEPTANCE = "simple acceptance"
GUARDED_ACCEPTANCE = "guarded acceptance"
RECIPIENT = "bound of ISO 4259, recipient"
SUPPLIER = "bound of ISO 4259, supplier"

OWN, REPRODUCIBILITY = "own uncertainty", "reproducibility"
SIGNS = {OWN: "u", REPRODUCIBILITY: "R"}
BY_THE_LIMITS = "Simple acceptance, without a guard band: the limits themselves decide."
WHERE = {
    Verdict.MET: "inside",
    Verdict.NOT_MET: "outside",
    Verdict.NOT_EVALUATED: "perhaps outside",
}


class RuleRefused(Refused):
    """A decision rule that is not kept, or that cannot be judged by as it is stated."""


class Towards(IntEnum):
    """Which way a rule moves the edges of acceptance from the limits."""

    OUTSIDE = -1
    NOWHERE = 0
    INSIDE = 1


@dataclass(frozen=True)
class Rule:
    """A decision rule: which way it moves the edges and on what it may rest.

    `confidence` holds where a line names none; without one a line must name its own.
    """

    name: str
    towards: Towards
    bases: tuple[str, ...] = ()
    confidence: str = ""

    @property
    def needs_uncertainty(self) -> bool:
        return bool(self.bases)


SIDES = {
    Towards.INSIDE: ("inside", "an accepted value has its true value inside"),
    Towards.OUTSIDE: ("outside", "a refused value has its true value outside"),
}

_KEPT = (
    Rule(SIMPLE_ACCEPTANCE, Towards.NOWHERE),
    Rule(GUARDED_ACCEPTANCE, Towards.INSIDE, (OWN, REPRODUCIBILITY)),
    Rule(RECIPIENT, Towards.OUTSIDE, (REPRODUCIBILITY,), USUAL_CONFIDENCE),
    Rule(SUPPLIER, Towards.INSIDE, (REPRODUCIBILITY,), USUAL_CONFIDENCE),
)
RULES: Mapping[str, Rule] = {kept.name: kept for kept in _KEPT}


def judge_by(
    name: str,
    value: Number,
    lower: str | None,
    upper: str | None,
    procedure: str | None,
    *,
    uncertainty: str | None = None,
    basis: str | None = None,
    confidence: str | None = None,
    tie: str = "even",
    step: str | None = None,
    constants: str = EXACT,
) -> Judgement:
    """The verdict on an unrounded value by a named decision rule.

    Simple acceptance holds the value against the limits themselves. Guarded acceptance
    and the supplier's bound of ISO 4259 hold it against edges inside the limits, the
    recipient's bound against edges outside; with two limits both must be met. Rounding
    stays that of the limit's own text. `uncertainty` is u or R, as `basis` says, in the
    unit of the limits. `why` says it where the rule decides otherwise than the limits.
    Raises RuleRefused where the rule cannot be judged by (see `zone_of`), and
    ProcedureMissing as `judge` does.
    """
    kept = _named(name)
    by_limits = judge(value, lower, upper, procedure, tie=tie, step=step)
    if not kept.needs_uncertainty or by_limits.compared is None:
        return by_limits
    stated = _Stated(uncertainty or "", basis or "", confidence or "", constants)
    zone = _zone(kept, lower or "", upper or "", stated)
    by_zone = judge(value, lower, upper, procedure, tie=tie, step=step, zone=zone)
    if by_zone.verdict is by_limits.verdict:
        return by_zone
    why = (
        f"{WHERE[by_limits.verdict]} the limits, {WHERE[by_zone.verdict]} the "
        f"acceptance zone {_told(zone, lower, upper)}"
    )
    return Judgement(by_zone.verdict, by_zone.compared, by_zone.limit, why)


def zone_of(
    name: str,
    lower: str | None,
    upper: str | None,
    *,
    uncertainty: str | None = None,
    basis: str | None = None,
    confidence: str | None = None,
    constants: str = EXACT,
) -> Zone:
    """Where a rule accepts values, before any rounding; never an empty zone.

    Raises RuleRefused for an unknown rule; for limits, an uncertainty, its basis or a
    confidence that are missing or make no sense; and where nothing is left to accept.
    """
    stated = _Stated(uncertainty or "", basis or "", confidence or "", constants)
    return _zone(_named(name), lower or "", upper or "", stated)


def needs_uncertainty(name: str) -> bool:
    """Whether a rule rests on an uncertainty. Raises RuleRefused for an unknown rule."""
    return _named(name).needs_uncertainty


def in_words(
    name: str,
    lower: str | None,
    upper: str | None,
    *,
    uncertainty: str | None = None,
    basis: str | None = None,
    confidence: str | None = None,
    constants: str = EXACT,
) -> str:
    """A rule with its figures as one sentence. Raises RuleRefused as `zone_of` does."""
    kept = _named(name)
    stated = _Stated(uncertainty or "", basis or "", confidence or "", constants)
    zone = _zone(kept, lower or "", upper or "", stated)
    if not kept.needs_uncertainty:
        return BY_THE_LIMITS
    stated = _checked(kept, stated)
    side, safe = SIDES[kept.towards]
    width = shortened(_width(stated), _places(lower, upper))
    limit = "each limit" if lower and upper else "the limit"
    named = f"{_capital(name)}{',' * (',' in name)}"
    return (
        f"{named} accepts {_told(zone, lower, upper)}: {width} {side} {limit} "
        f"({SIGNS[stated.basis]} = {stated.uncertainty}), so that {safe} it with "
        f"{_percent(stated.confidence)} confidence or more."
    )


@dataclass(frozen=True)
class _Stated:
    """What a line states for its rule, each empty where it states nothing."""

    uncertainty: str
    basis: str
    confidence: str
    constants: str


def _named(name: str) -> Rule:
    try:
        return RULES[name]
    except KeyError:
        raise RuleRefused(
            f"“{name}” is no decision rule: name one of {'; '.join(RULES)}."
        ) from None


@lru_cache(maxsize=1024)
def _zone(kept: Rule, lower: str, upper: str, stated: _Stated) -> Zone:
    """The zone between limits as texts, empty where there is no limit."""
    width = Fraction(0)
    try:
        if kept.needs_uncertainty:
            stated = _checked(kept, stated)
            width = kept.towards * _width(stated)
        zone = zone_drawn_in(lower.strip() or None, upper.strip() or None, width)
    except Refused as refusal:
        raise RuleRefused(refusal.sentence) from None
    if zone.is_empty:
        raise RuleRefused(
            f"{lower} to {upper} leaves nothing to accept: with "
            f"{SIGNS[stated.basis]} = {stated.uncertainty} and "
            f"{_percent(stated.confidence)} confidence each limit moves in by "
            f"{shortened(width, _places(lower, upper))}. Widen the limits, or choose "
            "another rule."
        )
    return zone


def _checked(kept: Rule, stated: _Stated) -> _Stated:
    """What a line states, once complete; the rule's own confidence where it names none."""
    basis = stated.basis or (kept.bases[0] if len(kept.bases) == 1 else "")
    if basis not in kept.bases:
        raise RuleRefused(
            f"“{stated.basis}” is nothing that {kept.name} rests on: name "
            f"{' or '.join(kept.bases)}."
        )
    if not stated.uncertainty.strip():
        raise RuleRefused(
            f"{_capital(kept.name)} rests on a stated uncertainty: "
            f"enter {SIGNS[basis]} in the unit of the limits."
        )
    confidence = stated.confidence.strip() or kept.confidence
    if not confidence:
        raise RuleRefused(
            f"Name the confidence of {kept.name}, such as {USUAL_CONFIDENCE}: "
            "there is no default."
        )
    return _Stated(stated.uncertainty.strip(), basis, confidence, stated.constants)


def _width(stated: _Stated) -> Fraction:
    """How far a limit moves by what is stated, complete."""
    return guard_width(
        u=stated.uncertainty if stated.basis == OWN else None,
        R=stated.uncertainty if stated.basis == REPRODUCIBILITY else None,
        confidence=stated.confidence,
        constants=stated.constants,
    )


def _told(zone: Zone, lower: str | None, upper: str | None) -> str:
    """A zone with as many decimals as its limits at least: their last place carries meaning."""
    return zone.told(_places(lower, upper), least=max(_decimals(lower, upper), 0))


def _places(lower: str | None, upper: str | None) -> int:
    """Two decimals more than the limits have, to tell a zone by."""
    return 2 + _decimals(lower, upper)


def _decimals(lower: str | None, upper: str | None) -> int:
    limits = [read(text).value for text in (lower, upper) if text and text.strip()]
    return max(-int(step_of(limit).adjusted()) for limit in limits)


def _capital(name: str) -> str:
    return f"{name[0].upper()}{name[1:]}"


def _percent(confidence: str) -> str:
    return f"{shortened(read(confidence).exact * 100)} %"
