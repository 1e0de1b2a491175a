"""Results held against requirements: one line, one verdict, by the functions of specs.judging alone. What fails to be checked is not evaluated, never met."""

import calendar
import datetime as dt
import logging
from dataclasses import dataclass

from lims.batches.models import FillLot, HeldAgainst
from lims.bench.evaluation import procedure_of
from lims.decisions.evidence import (
    ON_BATCH,
    ON_LOT,
    PERIODIC,
    Evidence,
    Result,
    evidence_on,
)
from lims.methods.models import Characteristic
from lims.people.queries import site_zone
from lims.products.models import Requirement, Revision
from lims.record.clock import now
from specs.judging import conformity, rules
from specs.judging.verdicts import WORST_FIRST, Judgement, Verdict, worst
from specs.numbers import Number, Refused

log = logging.getLogger(__name__)

# Marks of an ordered scale, the best first; a finding has two of them.
MARKS = (Characteristic.Kind.RATING, Characteristic.Kind.FINDING)


@dataclass(frozen=True)
class Line:
    """One requirement, what there is to hold against it, and the verdict; report-only and typical lines have none."""

    requirement: Requirement
    verdict: Verdict | None
    result: Result | None = None
    evidence: str = ""
    compared: str = ""
    why: str = ""
    valid_until: dt.date | None = None
    batch_count: int | None = None  # since the periodic test

    @property
    def counts(self) -> bool:
        return self.verdict is not None

    @property
    def source(self) -> str:
        """Where the result comes from, in words that a later line can be compared with."""
        if self.result is None:
            return ""
        zone = site_zone()
        first, last = (
            moment.astimezone(zone).date()
            for moment in (self.result.first_moment, self.result.last_moment)
        )
        until = f", valid until {self.valid_until}" if self.valid_until else ""
        return f"{self.result.lot.number}, {first} to {last}{until}"


@dataclass(frozen=True)
class Held:
    """A fill lot against one revision."""

    revision: Revision
    is_own: bool
    lines: tuple[Line, ...]

    @property
    def verdict(self) -> Verdict:
        return worst(line.verdict for line in self.lines if line.verdict is not None)

    @property
    def blocking(self) -> tuple[Line, ...]:
        return tuple(
            line
            for line in self.lines
            if line.verdict is not None and line.verdict != Verdict.MET
        )


def held_of(lot: FillLot, *, on: dt.date | None = None) -> tuple[Held, ...]:
    """A lot against its own revision first, then against the customers': today, or as periodic results stood on a day."""
    return held_of_all([lot], on=on)[lot.pk]


def held_of_all(
    lots: list[FillLot], *, on: dt.date | None = None
) -> dict[int, tuple[Held, ...]]:
    """Several lots at once, in a constant number of queries."""
    against = list(HeldAgainst.objects.filter(fill_lot__in=lots))
    revisions = _revisions({held.revision_id for held in against})
    lines_of = {pk: tuple(r.requirements.all()) for pk, r in revisions.items()}
    requirements = [line for lines in lines_of.values() for line in lines]
    evidence = evidence_on(lots, requirements) if lots else Evidence()
    evidence.on = on
    by_lot = {lot.pk: lot for lot in lots}
    found: dict[int, list[Held]] = {lot.pk: [] for lot in lots}
    for held in against:
        lines = tuple(
            line_of(by_lot[held.fill_lot_id], requirement, evidence)
            for requirement in lines_of[held.revision_id]
        )
        revision = revisions[held.revision_id]
        found[held.fill_lot_id].append(Held(revision, held.is_own, lines))
    return {pk: tuple(several) for pk, several in found.items()}


def _revisions(keys: set[int]) -> dict[int, Revision]:
    """Each revision once, however many lots are held against it."""
    revisions = Revision.objects.select_related(
        "specification__customer", "specification__product"
    ).prefetch_related("requirements__characteristic", "requirements__edition__method")
    found: dict[int, Revision] = revisions.in_bulk(keys)
    return found


def line_of(lot: FillLot, requirement: Requirement, evidence: Evidence) -> Line:
    """Hold what is known of a lot against one requirement."""
    if requirement.kind == Requirement.Kind.TYPICAL:
        return Line(requirement, None)
    key = (lot.pk, requirement.characteristic_id)
    if evidence.of_lot.get(key):
        return _worst(requirement, evidence.of_lot[key], ON_LOT)
    batch_key = (lot.batch_id, requirement.characteristic_id)
    if requirement.scope == Requirement.Scope.BATCH and evidence.of_batch.get(
        batch_key
    ):
        return _worst(requirement, evidence.of_batch[batch_key], ON_BATCH)
    if requirement.scope == Requirement.Scope.PERIODIC:
        return _periodic(lot, requirement, evidence)
    why, has_readings = evidence.why_none.get(key, ("no test of this lot", False))
    none = Verdict.NOT_EVALUATED if has_readings else Verdict.NOT_TESTED
    is_limit = requirement.kind == Requirement.Kind.LIMIT
    return Line(requirement, none if is_limit else None, why=why)


def _worst(requirement: Requirement, results: list[Result], evidence: str) -> Line:
    """Of several samples' results the worst verdict stands; a later good one hides nothing."""
    lines = [_judged(requirement, result, evidence) for result in results]
    return min(lines, key=lambda line: WORST_FIRST.index(line.verdict or Verdict.MET))


def _periodic(lot: FillLot, requirement: Requirement, evidence: Evidence) -> Line:
    """The newest result of an earlier batch, while it is valid by batches and by months."""
    for result in evidence.periodic.get(
        (lot.batch.product_id, requirement.characteristic_id), []
    ):
        count = evidence.batches_between(earlier=result.lot.batch, later=lot.batch)
        if count is None or count <= 0:
            continue
        until = _valid_until(result, requirement)
        line = _judged(
            requirement, result, PERIODIC, valid_until=until, batch_count=count
        )
        why = _why_over(requirement, count, until, evidence.on)
        return _untested(requirement, why) if why else line
    return _untested(
        requirement, "no earlier batch has a periodic result; test this lot"
    )


def _untested(requirement: Requirement, why: str) -> Line:
    """Not tested, where the line is a limit; a line that is only reported stands in nobody's way."""
    is_limit = requirement.kind == Requirement.Kind.LIMIT
    return Line(requirement, Verdict.NOT_TESTED if is_limit else None, why=why)


def _valid_until(result: Result, requirement: Requirement) -> dt.date | None:
    if requirement.every_months is None:
        return None
    start = result.first_moment.astimezone(site_zone()).date()
    return months_after(start, requirement.every_months)


def months_after(day: dt.date, months: int) -> dt.date:
    """The same day some months later, or the last of a shorter month."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(day.day, last))


def _why_over(
    requirement: Requirement, count: int, until: dt.date | None, on: dt.date | None
) -> str:
    today = on or now().astimezone(site_zone()).date()
    if requirement.every_batches is not None and count > requirement.every_batches:
        return (
            f"periodic test overdue: this is batch {count} since the last one, asked for "
            f"every {requirement.every_batches}"
        )
    if until is not None and today > until:
        return f"periodic test overdue: the last one was valid until {until}"
    return ""


def _judged(
    requirement: Requirement,
    result: Result,
    evidence: str,
    *,
    valid_until: dt.date | None = None,
    batch_count: int | None = None,
) -> Line:
    verdict, compared, why = judgement(
        requirement, requirement.characteristic, result.value
    )
    return Line(
        requirement=requirement,
        verdict=verdict,
        result=result,
        evidence=evidence,
        compared=compared,
        why=why,
        valid_until=valid_until,
        batch_count=batch_count,
    )


def judgement(
    requirement: Requirement, characteristic: Characteristic, value: str
) -> tuple[Verdict | None, str, str]:
    """Verdict, compared value and reason of one stored value against one line. Any failure of the check itself is not evaluated."""
    if requirement.kind != Requirement.Kind.LIMIT:
        return None, "", ""
    try:
        judged = _judge(requirement, characteristic, value)
    except Refused as refusal:
        return Verdict.NOT_EVALUATED, "", refusal.sentence
    except Exception:
        log.exception("The check of requirement %s failed.", requirement.pk)
        return (
            Verdict.NOT_EVALUATED,
            "",
            "The check itself failed. Tell the administrator; the value is kept.",
        )
    return judged.verdict, judged.compared or "", judged.why


def _judge(
    requirement: Requirement, characteristic: Characteristic, value: str
) -> Judgement:
    if characteristic.kind == Characteristic.Kind.WORDS:
        return _judge_words(value)
    if characteristic.kind in MARKS:
        procedure = procedure_of(characteristic)
        allowed = requirement.upper or requirement.must
        return conformity.judge_rating(
            procedure.judged_as(value), allowed, procedure.scale
        )
    return rules.judge_by(
        requirement.rule,
        Number.stored(value),
        requirement.lower or None,
        requirement.upper or None,
        requirement.comparing,
        uncertainty=requirement.uncertainty or None,
        basis=requirement.basis or None,
        confidence=requirement.confidence or None,
    )


def _judge_words(value: str) -> Judgement:
    """A finding is met or not met as the person found it; anything else is not evaluated."""
    found = value.strip().casefold()
    if found in (Verdict.MET, Verdict.NOT_MET):
        return Judgement(Verdict(found), compared=found)
    return Judgement(
        Verdict.NOT_EVALUATED, why=f"“{value}” says neither met nor not met."
    )
