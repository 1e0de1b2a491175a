"""What a draft revision would have done: every stored result of its product held against the draft's lines, by the same judgement as a lot's. Nothing is written."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from lims.batches.models import FillLot
from lims.bench.models import ReportedValue
from lims.decisions.verdicts import judgement
from lims.products.models import Requirement, Revision
from lims.products.queries import requirements_of
from specs.judging.verdicts import Verdict

AT_ONCE = 5000  # rows fetched together
TEST, SAMPLE = "test", "test__sample"


@dataclass
class LineCount:
    """What became of the stored results of one line."""

    requirement: Requirement
    counts: Counter[Verdict] = field(default_factory=Counter)

    @property
    def total(self) -> int:
        return self.counts.total()

    @property
    def met(self) -> int:
        return self.counts[Verdict.MET]

    @property
    def not_met(self) -> int:
        return self.counts[Verdict.NOT_MET]

    @property
    def not_evaluated(self) -> int:
        return self.counts[Verdict.NOT_EVALUATED]


@dataclass(frozen=True)
class Failure:
    """One stored result that a line would not have let through, or could not have judged."""

    lot_id: int
    requirement: Requirement
    reported: str
    verdict: Verdict
    why: str


@dataclass
class Preview:
    """Every stored result against a draft: per line, and the results that were not met or not evaluated."""

    revision: Revision
    lines: tuple[LineCount, ...]
    failures: tuple[Failure, ...]  # the lots registered last come first

    @property
    def total(self) -> int:
        return sum(line.total for line in self.lines)

    @property
    def not_met(self) -> int:
        return sum(line.not_met for line in self.lines)

    @property
    def not_evaluated(self) -> int:
        return sum(line.not_evaluated for line in self.lines)

    @property
    def without_result(self) -> tuple[LineCount, ...]:
        """The lines that no stored result speaks to: nothing is known of them."""
        return tuple(line for line in self.lines if not line.total)

    @property
    def lot_count(self) -> int:
        """How many fill lots have a result that is not met."""
        return len({it.lot_id for it in self.failures if it.verdict == Verdict.NOT_MET})


def preview_of(revision: Revision) -> Preview:
    """Hold the newest reported value of each counting test of the product against the draft's limits.

    Two queries, however many results; equal values of a line are judged once.
    """
    limits = {
        row.characteristic_id: LineCount(row)
        for row in requirements_of(revision)
        if row.kind == Requirement.Kind.LIMIT
    }

    @cache
    def judged(characteristic_id: int, value: str) -> tuple[Verdict, str]:
        requirement = limits[characteristic_id].requirement
        found = judgement(requirement, requirement.characteristic, value)
        return found[0] or Verdict.NOT_EVALUATED, found[2]

    failures: list[Failure] = []
    for characteristic_id, lot_id, value, reported in _stored(revision, list(limits)):
        line = limits[characteristic_id]
        verdict, why = judged(characteristic_id, value)
        line.counts[verdict] += 1
        if verdict != Verdict.MET:
            failures.append(Failure(lot_id, line.requirement, reported, verdict, why))
    failures.sort(key=lambda it: (-it.lot_id, it.requirement.line))
    return Preview(revision, tuple(limits.values()), tuple(failures))


def _stored(
    revision: Revision, characteristics: list[int]
) -> Iterator[tuple[int, int, str, str]]:
    """Characteristic, fill lot, value and its reported form of each test that counts for a release."""
    return (
        ReportedValue.objects.filter(
            test__sample__counts=True,
            test__sample__batch__product=revision.specification.product_id,
            test__characteristic__in=characteristics,
            replaced_by__isnull=True,
            is_withdrawn=False,
        )
        .order_by()
        .values_list(
            f"{TEST}__characteristic", f"{SAMPLE}__fill_lot", "value", "reported"
        )
        .iterator(chunk_size=AT_ONCE)
    )


def lots_of(failures: list[Failure]) -> dict[int, FillLot]:
    """The fill lots of some failures, by key."""
    keys = {it.lot_id for it in failures}
    found: dict[int, FillLot] = FillLot.objects.select_related("batch").in_bulk(keys)
    return found
