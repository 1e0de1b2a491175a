"""Every line of an internal copy: what was asked, what was found and signed, by which rules, and what is still from memory."""

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

from lims.bench.models import Test
from lims.decisions.evidence import ON_LOT, Result
from lims.decisions.grounds import Ground
from lims.decisions.models import FrozenVerdict
from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Line
from lims.documents.internal_sets import TestTold, test_told
from lims.methods.models import Characteristic
from lims.people.queries import site_zone
from lims.products.models import Requirement
from lims.wording import dates, limits, numbers
from specs.numbers import Number, shortened

NUMERIC = (Characteristic.Kind.NUMBER, Characteristic.Kind.LADDER)
DECIMALS = 6
DAY = re.compile(r"\b\d{4}-\d\d-\d\d\b")
COMPARING = {
    "rounding": "the value, rounded once to the last place of its limit",
    "absolute": "the value as it stands, without rounding",
}
Said = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class LineTold:
    """One requirement; `said` are its facts, each with its label."""

    number: int
    title: str
    said: Said
    memory: tuple[str, ...]
    is_met: bool
    tests: tuple[TestTold, ...]


def line_told(
    line: Line,
    number: int,
    *,
    then: FrozenVerdict | None,
    ground: Ground,
    tests: Sequence[Test],
) -> LineTold:
    """A line as it was signed where it was, with everything that was read for it."""
    verdict = then.verdict if then else str(line.verdict or "")
    otherwise = _otherwise(line, then)
    facts = (
        ("Method", str(line.requirement.edition or "")),
        ("Limits", _limits(line.requirement)),
        ("Decision rule", _rule(line.requirement)),
        ("Value", _value(line, then)),
        ("Verdict", _verdict(line, then)),
        ("Probability", str(ground.chance or "").removeprefix("probability ")),
        ("Evidence", _evidence(line, then)),
        ("Reported by", "" if otherwise else _reported(line.result)),
        ("Not as signed", otherwise),
    )
    return LineTold(
        number=number,
        title=line.requirement.characteristic.in_full,
        said=tuple((label, text) for label, text in facts if text),
        memory=tuple(f"From memory, {told}" for told in ground.from_memory),
        is_met=verdict in ("met", ""),
        tests=tuple(told for it in tests if (told := test_told(it))),
    )


def _limits(requirement: Requirement) -> str:
    it = requirement.characteristic
    if requirement.kind != Requirement.Kind.LIMIT:
        return "none, reported only"
    if it.kind not in NUMERIC:
        return requirement.limits
    return limits.limits(
        requirement.lower or None,
        requirement.upper or None,
        it.unit,
        signed=it.is_signed,
    )


def _rule(requirement: Requirement) -> str:
    """The rule with its figures, and what is compared by it."""
    if requirement.kind != Requirement.Kind.LIMIT:
        return ""
    ruling = ruling_of(requirement)
    rule = ruling.words.rstrip(".") if ruling else requirement.rule
    if requirement.characteristic.kind not in NUMERIC:
        return rule
    return f"{rule}; compared: {COMPARING[requirement.comparing]}"


def _value(line: Line, then: FrozenVerdict | None) -> str:
    value = then.reported if then else _reported_now(line)
    it = line.requirement.characteristic
    shown = numbers.with_unit(value, it.unit, signed=it.is_signed)
    unrounded = _unrounded(line)
    if not shown or value != _reported_now(line) or unrounded in ("", value):
        return shown or "none"
    return f"{shown}, unrounded {numbers.shown(unrounded, signed=it.is_signed)}"


def _unrounded(line: Line) -> str:
    """With so many decimals as no rounding rests on; nothing for a mark, a word or a bound."""
    if line.result is None or line.requirement.characteristic.kind not in NUMERIC:
        return ""
    number = Number.stored(line.result.value)
    return "" if number.is_censored else shortened(number.value, DECIMALS)


def _verdict(line: Line, then: FrozenVerdict | None) -> str:
    verdict = then.verdict if then else str(line.verdict or "")
    why = then.why if then else line.why
    if not verdict:
        return "none, reported only"
    return f"{verdict}: {why}" if why else verdict


def _evidence(line: Line, then: FrozenVerdict | None) -> str:
    evidence = then.evidence if then else line.evidence
    source = then.source if then else line.source
    if not evidence:
        return ""
    in_words = DAY.sub(_day, source)
    return f"{evidence}: {in_words}" if evidence != ON_LOT else evidence


def _day(found: re.Match[str]) -> str:
    """A day in words; a number that only looks like one stays."""
    try:
        return dates.day(dt.date.fromisoformat(found[0]), site_zone())
    except ValueError:
        return found[0]


def _reported(result: Result | None) -> str:
    if result is None:
        return ""
    sets = result.determination_count
    parts = [
        result.says,
        f"rule: {result.rule}" if result.rule else "",
        f"{result.constants} constants" if result.constants else "",
        f"{sets} sets, {result.set_aside_count} set aside" if sets > 1 else "",
        dates.day_time(result.last_moment, site_zone()),
    ]
    return "; ".join(part for part in parts if part)


def _otherwise(line: Line, then: FrozenVerdict | None) -> str:
    """What the record reads now, where it is no longer what was signed."""
    if then is None:
        return ""
    now = (_reported_now(line), str(line.verdict or ""))
    if now == (then.reported, then.verdict):
        return ""
    told = ", ".join(part for part in now if part) or "nothing"
    reported = _reported(line.result)
    return f"the record now reads {told}" + (f": {reported}" if reported else "")


def _reported_now(line: Line) -> str:
    return line.result.reported if line.result else ""
