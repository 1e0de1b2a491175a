"""What the pages of batches and fill lots show: samples with their results, the kettle's target, packs and papers."""

import datetime as dt
from collections import Counter
from dataclasses import dataclass
from typing import Any

from django.db.models import Count, Prefetch, Q, QuerySet

from lims.batches.models import Batch, FillLot, Retain, RetainException, Sample
from lims.bench.models import Test
from lims.bench.reporting import active_value
from lims.certificates.models import CertificateRevision
from lims.certificates.queries import allotments_of
from lims.decisions.grounds import grounds_of
from lims.decisions.queries import last_values, release_of
from lims.decisions.verdicts import Held, held_of, judgement
from lims.products.models import Requirement
from lims.screens.bench.finding import kettle_line
from lims.screens.decisions.lines import Row, limits_in_words, row_of
from lims.screens.decisions.on_limits import ruler_of
from lims.screens.decisions.presenting import signed
from lims.screens.decisions.words import packs
from lims.screens.specifications.designation import panel_of, worked_of

State = FillLot.State
WORDS = {
    State.ON_TEST: ("is on test", "are on test"),
    State.AWAITING_DECISION: ("awaits a decision", "await a decision"),
    State.ON_HOLD: ("is on hold", "are on hold"),
    State.RELEASED: ("is released", "are released"),
}


@dataclass(frozen=True)
class Result:
    """One test of a sample with its value, if it has one; a kettle's with its verdict."""

    test: Test
    value: str
    verdict: str
    ruler: dict[str, Any]


@dataclass(frozen=True)
class Taken:
    """A sample with what came of it."""

    sample: Sample
    retain: Retain | None
    results: tuple[Result, ...]


def list_answer() -> str:
    """How many batches there are and what became of their fill lots."""
    counts = FillLot.objects.values_list("state").annotate(count=Count("pk"))
    return answer(Batch.objects.count(), Counter(dict(counts)))


def answer(batches: int, states: Counter[str]) -> str:
    if not batches:
        return "No batch is registered yet."
    head = "1 batch." if batches == 1 else f"{batches} batches."
    told = in_states(states)
    return f"{head} {told}" if told else head


def in_states(states: Counter[str]) -> str:
    """Fill lots by state, such as `2 fill lots are on test; 1 is released`."""
    parts: list[str] = []
    for state, (one, many) in WORDS.items():
        count = states[state]
        if count:
            noun = "" if parts else f" fill lot{'s' * (count > 1)}"
            parts.append(f"{count}{noun} {one if count == 1 else many}")
    return f"{'; '.join(parts)}." if parts else ""


def narrowed(rows: QuerySet[Batch], given: dict[str, str]) -> QuerySet[Batch]:
    """The batches that fit the filter."""
    if given.get("number"):
        rows = rows.filter(number__icontains=given["number"])
    if given.get("product"):
        rows = rows.filter(product__code=given["product"])
    if given.get("state"):
        rows = rows.filter(fill_lots__state=given["state"]).distinct()
    return rows


def retains_found(rows: QuerySet[Retain], typed: str) -> QuerySet[Retain]:
    typed = typed.strip()
    if not typed:
        return rows
    number = "-".join(typed.split())
    return rows.filter(
        Q(place__icontains=typed)
        | Q(sample__number__icontains=number)
        | Q(sample__fill_lot__batch__product__code__iexact=typed)
    )


def batch_page(batch: Batch) -> dict[str, Any]:
    """One batch: its fill lots, its samples, the kettle's target."""
    target = kettle_line(batch.product)
    taken = samples_of(batch.samples.all(), target)
    lots = list(batch.fill_lots.all())
    return {
        "batch": batch,
        "lots": [(lot, packs(lot)) for lot in lots],
        "in_process": [it for it in taken if it.sample.is_in_process],
        "finished": [it for it in taken if not it.sample.is_in_process],
        "target": target,
        "target_limits": limits_in_words(target) if target else "",
        "answer": in_states(Counter(lot.state for lot in lots))
        or "Nothing of this batch is filled yet.",
    }


def samples_of(
    samples: QuerySet[Sample], target: Requirement | None = None
) -> list[Taken]:
    """Samples with their tests and values, in a constant number of queries."""
    tests = Prefetch(
        "tests",
        Test.objects.select_related("characteristic").prefetch_related(
            "reported_values"
        ),
    )
    rows = samples.select_related("retain", "received_by", "fill_lot").prefetch_related(
        tests
    )
    return [
        Taken(
            sample,
            getattr(sample, "retain", None),
            tuple(_result(test, sample, target) for test in sample.tests.all()),
        )
        for sample in rows
    ]


def _result(test: Test, sample: Sample, target: Requirement | None) -> Result:
    value = active_value(test)
    reported = value.reported if value else ""
    is_checked = (
        sample.is_in_process
        and target is not None
        and target.characteristic_id == test.characteristic_id
    )
    if value is None or target is None or not is_checked:
        return Result(test, reported, "", {})
    verdict, _, _ = judgement(target, target.characteristic, value.value)
    _, bar = ruler_of(target, reported, str(verdict), (), "")
    return Result(test, reported, str(verdict or ""), bar)


def requirement_rows(lot: FillLot) -> list[Row]:
    """What a lot must meet by its own revision, each line with what was found."""
    return _requirement_rows(lot, _own(lot))


def _own(lot: FillLot) -> Held | None:
    return next((held for held in held_of(lot) if held.is_own), None)


def _requirement_rows(lot: FillLot, own: Held | None) -> list[Row]:
    release = release_of(lot)
    frozen = {v.requirement_id: v for v in release.verdicts.all()} if release else {}
    last = last_values(lot)
    grounds = grounds_of(
        own.lines if own else (), stated_until=release.decided_at if release else None
    )
    return [
        row_of(line, last, frozen, grounds)
        for line in (own.lines if own else ())
        if line.requirement.kind != Requirement.Kind.TYPICAL
    ]


def lot_page(lot: FillLot) -> dict[str, Any]:
    """One fill lot: verdicts, samples, retains, packs allotted, papers, decisions."""
    own = _own(lot)
    rows = _requirement_rows(lot, own)
    taken = samples_of(lot.samples.all())
    papers = papers_of(lot)
    return {
        "lot": lot,
        "packs": packs(lot),
        "own": own,
        "rows": rows,
        "answer": lot_answer(lot, rows),
        "taken": taken,
        "has_retain": any(it.retain and it.sample.counts for it in taken),
        "exception": RetainException.objects.select_related("allowed_by")
        .filter(fill_lot=lot)
        .first(),
        "allotments": [
            (allotment, papers.get(allotment.pk, ()))
            for allotment in allotments_of(lot)
        ],
        "signed": signed(lot),
        "designation": panel_of(
            lot.batch.product,
            [line.requirement for line in own.lines] if own else [],
            reported=_worked(taken),
        ),
    }


def _worked(taken: list[Taken]) -> list[str]:
    """The worked penetrations that were reported of samples that count."""
    return worked_of(
        (result.test.characteristic.code, result.value)
        for it in taken
        if it.sample.counts
        for result in it.results
    )


def papers_of(lot: FillLot) -> dict[int, list[CertificateRevision]]:
    """The certificates of a lot by the allotment that they are for."""
    found: dict[int, list[CertificateRevision]] = {}
    for paper in CertificateRevision.objects.filter(
        certificate__fill_lot=lot
    ).select_related("certificate"):
        found.setdefault(paper.certificate.allotment_id, []).append(paper)
    return found


def lot_answer(lot: FillLot, rows: list[Row]) -> str:
    """Where a lot stands, such as `On test: 4 of 7 requirements met, 3 not tested`."""
    counts = Counter(row.verdict for row in rows if row.verdict)
    total = sum(counts.values())
    if not total:
        return f"This lot is {lot.state} and held against no requirement."
    head = f"{lot.state.capitalize()}: {counts['met']} of {total} requirements met"
    parts = [
        f"{counts[verdict]} {verdict}"
        for verdict in ("not met", "not evaluated", "not tested")
        if counts[verdict]
    ]
    return f"{', '.join([head, *parts])}."


def counts_from(lot: FillLot) -> dt.datetime:
    """The moment from which a sample of a lot counts by its plan."""
    hours = lot.batch.product.sampling_plan.hours_after_filling
    return lot.filled_at + dt.timedelta(hours=hours)
