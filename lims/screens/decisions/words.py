"""The sentences of a decision: the answer that opens the page, and what the signer says in the first person."""

from collections.abc import Sequence

from lims.batches.models import FillLot
from lims.certificates.packs import counted
from lims.decisions.evidence import ON_BATCH, ON_LOT, PERIODIC
from lims.decisions.review import Review
from lims.people.permissions import listed
from lims.products.models import Revision
from lims.screens.decisions.lines import Row
from lims.wording import numbers
from specs.judging.grades import GradeRefused, nlgi
from specs.judging.verdicts import WORST_FIRST, Verdict
from specs.numbers import Number, NumberRefused

WORDS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
EVIDENCE = (ON_LOT, ON_BATCH, PERIODIC)


def in_words(count: int) -> str:
    """`six`; figures from thirteen on."""
    return WORDS[count] if count < len(WORDS) else numbers.counts(count)


def counting(rows: Sequence[Row]) -> list[Row]:
    """The rows that have a verdict, worst first."""
    found = [row for row in rows if row.verdict]
    return sorted(found, key=lambda row: WORST_FIRST.index(Verdict(row.verdict)))


def counts_truly(rows: Sequence[Row]) -> str:
    """`six requirements: five tested on this lot, one periodic`."""
    with_verdict = counting(rows)
    parts = []
    for evidence in EVIDENCE:
        count = sum(row.evidence == evidence for row in with_verdict)
        if count:
            parts.append(f"{in_words(count)} {evidence}")
    without = sum(not row.evidence for row in with_verdict)
    if without:
        parts.append(f"{in_words(without)} without a result")
    total = len(with_verdict)
    noun = "requirement" if total == 1 else "requirements"
    return f"{in_words(total)} {noun}: {', '.join(parts)}" if parts else f"no {noun}"


def answer(revision: Revision | None, rows: Sequence[Row], review: Review) -> str:
    """Whether a lot meets its specification, and what that rests on."""
    with_verdict = counting(rows)
    if revision is None or not with_verdict:
        return f"{review.lot} is held against no requirement, so it cannot be released."
    blocking = [row for row in with_verdict if row.verdict != Verdict.MET]
    told = [_standing(review)] if _standing(review) else []
    if not blocking:
        told.append(f"Every requirement of {revision} is met.")
    else:
        told += _blocking_sentences(blocking)
        told += _others(len(with_verdict) - len(blocking))
        told += [sentence for row in blocking if (sentence := _grade(row))]
    rests = _rests_on(rows, review)
    return " ".join([*told, rests] if rests else told)


def _standing(review: Review) -> str:
    """`On hold.`, `Released.`: what was decided stands before what was found."""
    decided = (FillLot.State.RELEASED, FillLot.State.ON_HOLD)
    return f"{review.lot.state.capitalize()}." if review.lot.state in decided else ""


def _blocking_sentences(rows: Sequence[Row]) -> list[str]:
    """One sentence for each that was read, one for all that were not."""
    told = [_was_read(row) for row in rows if row.verdict != Verdict.NOT_TESTED]
    waiting = [row for row in rows if row.verdict == Verdict.NOT_TESTED]
    if len(waiting) == 1:
        told.append(_was_read(waiting[0]))
    elif waiting:
        names = listed([_short(row) for row in waiting], "and")
        told.append(f"Not tested: {names}.")
    return told


def _was_read(row: Row) -> str:
    if row.verdict == Verdict.NOT_MET:
        value = numbers.shown(row.value, signed=row.signed)
        if row.by_rule:
            return f"{row.name} is {value}, {row.why}."
        return f"{row.name} is {value}; the requirement is {row.limits}."
    why = row.why.rstrip(".")
    joint = ":" if why[:1].islower() else "."
    return (
        f"{row.name} is {row.verdict}{joint} {why}."
        if why
        else f"{row.name} is {row.verdict}."
    )


def _short(row: Row) -> str:
    """`Oxidation` of `Oxidation, pressure drop`, within a sentence."""
    name = row.name.partition(",")[0]
    return f"{name[0].lower()}{name[1:]}"


def _others(count: int) -> list[str]:
    if not count:
        return []
    return [
        "The other requirement is met."
        if count == 1
        else f"The other {count} requirements are met."
    ]


def _grade(row: Row) -> str:
    """A worked penetration between two numbers belongs to no NLGI grade."""
    if row.requirement.characteristic.code != "worked-penetration":
        return ""
    try:
        grade = nlgi(Number.stored(row.value).value)
    except (GradeRefused, NumberRefused):
        return ""
    return f"{row.value} lies in no NLGI grade." if grade.grade is None else ""


def _rests_on(rows: Sequence[Row], review: Review) -> str:
    """What is not this lot's own plain evidence: `Oxidation rests on a periodic test`."""
    parts = []
    for evidence, test in (
        (PERIODIC, "a periodic test"),
        (ON_BATCH, "a test of another fill lot of the batch"),
    ):
        names = [_short(row) for row in counting(rows) if row.evidence == evidence]
        if names:
            verb = "rests" if len(names) == 1 else "rest"
            parts.append(f"{listed(names, 'and')} {verb} on {test}")
    aside = len(review.set_aside)
    if aside:
        parts.append(
            "one set was set aside"
            if aside == 1
            else f"{in_words(aside)} sets were set aside"
        )
    if review.exception is not None and not review.retains:
        parts.append("no retain is kept, which was allowed")
    whole = "; ".join(parts)
    return f"{whole[0].upper()}{whole[1:]}." if whole else ""


def packs(lot: FillLot) -> str:
    """`30 drums of 180 kg`."""
    return f"{counted(lot.pack_count, lot.pack)} of {lot.pack_kg} kg"
