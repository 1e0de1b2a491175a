"""A verdict line as a page shows it: value, ruler, verdict, and how the value came about."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from lims.decisions.evidence import ON_BATCH, PERIODIC, Result
from lims.decisions.grounds import NOTHING, Grounds
from lims.decisions.models import FrozenVerdict
from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Line
from lims.products.models import Requirement
from lims.screens.decisions.on_limits import is_numeric, ruler_of
from lims.screens.zone import zone
from lims.wording import dates, limits, numbers
from specs.judging.verdicts import Verdict
from specs.numbers import Number, NumberRefused

Last = Mapping[int, Sequence[str]]  # earlier values by characteristic
Frozen = Mapping[int, FrozenVerdict]  # verdicts as signed, by requirement
BY_RULE = (Verdict.MET, Verdict.NOT_MET)
ONLY_REPORTED = "There is nothing to hold it against: it is reported only."


@dataclass(frozen=True)
class Row:
    """One requirement with what was found."""

    requirement: Requirement
    name: str
    about: str
    limits: str
    internal: str
    value: str
    unit: str
    signed: bool
    verdict: str  # empty where the line has none
    evidence: str
    ruler: str  # "limit", "rating" or nothing
    bar: Mapping[str, Any]
    beside: str  # how far the value stands from its limit
    how: tuple[str, ...]
    repeated: tuple[str, ...]  # the rule by which more sets than one were reported
    why: str
    last: tuple[str, ...]
    rule: str  # in words with its figures, where it accepts from other ends than the limits
    by_rule: bool  # the rule decides otherwise than the limits themselves would
    chance: str
    from_memory: tuple[str, ...]

    @property
    def has_ground(self) -> bool:
        """Whether something is told below the line, where there is room for a sentence."""
        return bool(self.repeated or self.chance or self.from_memory)

    @property
    def is_bad(self) -> bool:
        return self.verdict == Verdict.NOT_MET

    @property
    def is_report_only(self) -> bool:
        return self.requirement.kind == Requirement.Kind.REPORT_ONLY


def row_of(
    line: Line,
    last: Last | None = None,
    frozen: Frozen | None = None,
    grounds: Grounds | None = None,
) -> Row:
    """A line as it stands now, or as it was signed where it was."""
    requirement = line.requirement
    characteristic = requirement.characteristic
    then = (frozen or {}).get(requirement.pk)
    value = then.reported if then else _reported(line)
    verdict = then.verdict if then else str(line.verdict or "")
    evidence = then.evidence if then else line.evidence
    why = then.why if then else line.why
    earlier = tuple((last or {}).get(characteristic.pk, ()))
    ruler, bar = ruler_of(requirement, value, verdict, earlier, evidence)
    ruling = ruling_of(requirement)
    by_rule = ruling is not None and verdict in BY_RULE and why != ""
    ground = (grounds or {}).get(requirement.pk, NOTHING)
    compared = then.compared if then else line.compared
    return Row(
        requirement=requirement,
        name=characteristic.name,
        about=_about(requirement),
        limits=limits_in_words(requirement),
        internal=_internal(requirement),
        value=value,
        unit=characteristic.unit,
        signed=characteristic.is_signed,
        verdict=verdict,
        evidence=evidence,
        ruler=ruler,
        bar=bar,
        beside="" if by_rule else beside_limit(requirement, compared),
        how=_how(line),
        repeated=_repeated(line.result) if line.evidence != PERIODIC else (),
        why=why,
        last=earlier,
        rule=ruling.words if ruling else "",
        by_rule=by_rule,
        chance=str(ground.chance or ""),
        from_memory=ground.from_memory,
    )


def limits_in_words(requirement: Requirement) -> str:
    """The limits with their unit and sign; words and ratings as they stand."""
    characteristic = requirement.characteristic
    if requirement.kind != Requirement.Kind.LIMIT:
        return "no limit, reported only"
    if not is_numeric(characteristic):
        return requirement.limits
    return limits.limits(
        requirement.lower or None,
        requirement.upper or None,
        characteristic.unit,
        signed=characteristic.is_signed,
    )


def beside_limit(requirement: Requirement, compared: str) -> str:
    """`3 above its limit`, `9 below its upper limit`: from the value as it was compared."""
    value = _plain(compared)
    bounds = [
        (word, bound)
        for word, bound in (
            ("lower", _plain(requirement.lower)),
            ("upper", _plain(requirement.upper)),
        )
        if bound is not None
    ]
    if value is None or not bounds or not is_numeric(requirement.characteristic):
        return ""
    word, bound = min(bounds, key=lambda it: abs(value - it[1]))
    which = f"its {word} limit" if len(bounds) > 1 else "its limit"
    if value == bound:
        return f"on {which}"
    side = "above" if value > bound else "below"
    unit = requirement.characteristic.unit
    distance = numbers.with_unit(
        Number.of(abs(value - bound)).canonical, "" if unit[:1].isdigit() else unit
    )
    return f"{distance} {side} {which}"


def is_outside_internal(requirement: Requirement, compared: str) -> bool:
    value = _plain(compared)
    low, high = (
        _plain(requirement.internal_lower),
        _plain(requirement.internal_upper),
    )
    if value is None:
        return False
    return (low is not None and value < low) or (high is not None and value > high)


def _reported(line: Line) -> str:
    return line.result.reported if line.result else ""


def _about(requirement: Requirement) -> str:
    parts = [
        requirement.characteristic.conditions,
        str(requirement.edition) if requirement.edition else "",
    ]
    return ", ".join(part for part in parts if part)


def _internal(requirement: Requirement) -> str:
    low, high = requirement.internal_lower, requirement.internal_upper
    if not low and not high:
        return ""
    return limits.limits(
        low or None, high or None, signed=requirement.characteristic.is_signed
    )


def _how(line: Line) -> tuple[str, ...]:
    if line.result is None:
        return ()
    if line.evidence == PERIODIC:
        return _how_periodic(line)
    told = [line.result.says]
    if line.evidence == ON_BATCH:
        told.append(f"on fill lot {line.result.lot}")
    told.append(_counted(line.result))
    return tuple(part for part in told if part)


def _counted(result: Result) -> str:
    """``4 sets, 2 set aside``; nothing of a single one."""
    if result.determination_count < 2:
        return ""
    aside = f", {result.set_aside_count} set aside" if result.set_aside else ""
    return f"{result.determination_count} sets{aside}"


def _repeated(result: Result | None) -> tuple[str, ...]:
    """Of more sets than one the rule by which the value was reported, and which set it found too far off: why stands beside that set."""
    if result is None or result.determination_count < 2:
        return ()
    told = [f"By the rule: {result.rule}."] if result.rule else []
    told += [
        f"Set {it.place} is set aside: cause not yet found, look for it."
        for it in result.set_aside
        if it.by_rule
    ]
    return tuple(told)


def _how_periodic(line: Line) -> tuple[str, ...]:
    if line.result is None:
        return ()
    tested = dates.day(line.result.last_moment, zone())
    found = [f"batch {line.result.lot.batch.number}, tested {tested}"]
    every = line.requirement.every_batches
    if line.batch_count is not None and every:
        found.append(f"batch {line.batch_count} of {every} since then")
    if line.valid_until is not None:
        found.append(f"stands until {dates.day(line.valid_until, zone())}")
    return tuple(found)


def _plain(text: str) -> Decimal | None:
    """A stored number that stands for itself; nothing for a bound, a word or no text."""
    if not text:
        return None
    try:
        number = Number.stored(text)
    except NumberRefused:
        return None
    return None if number.is_censored else number.value
