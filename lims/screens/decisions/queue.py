"""The queue: what awaits a decision, worst verdict first, each with the line that decides."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from django.http import HttpRequest, QueryDict

from lims.batches.models import FillLot
from lims.decisions.evidence import PERIODIC
from lims.decisions.models import Decision
from lims.decisions.queries import Waiting, awaiting_decision, on_hold
from lims.screens.decisions.lasts import lasts_of
from lims.screens.decisions.lines import Row, is_outside_internal, row_of
from lims.screens.decisions.words import packs
from lims.screens.paging import page_of
from specs.judging.verdicts import WORST_FIRST, Verdict

NOTES = {
    Verdict.NOT_MET: "Release is closed; the lot can be put on hold.",
    Verdict.NOT_EVALUATED: "Something was read and cannot count, or could not be checked.",
    Verdict.NOT_TESTED: "A requirement has no result.",
    Verdict.MET: "What must leave first stands first, then what is nearest to a limit.",
}


@dataclass(frozen=True)
class Item:
    """One lot of the queue."""

    lot: FillLot
    packs: str
    row: Row | None
    beside: str
    counts: str
    not_for: tuple[str, ...]  # customers whose own revision it does not meet


@dataclass
class Group:
    """The lots of one verdict; the count is of the whole queue, not of the page."""

    verdict: str
    count: int
    note: str
    items: list[Item] = field(default_factory=list)


@dataclass(frozen=True)
class Held:
    """A lot on hold and the signature that stopped it."""

    lot: FillLot
    decision: Decision | None


def context(request: HttpRequest) -> dict[str, Any]:
    """Everything that the list of decisions shows."""
    everything = awaiting_decision()
    waiting = _narrowed(everything, request.GET)
    counts = Counter(each.verdict for each in waiting)
    page = page_of(request, waiting)
    return {
        "answer": answer(Counter(each.verdict for each in everything)),
        "groups": _groups(list(page), counts),
        "page": page,
        "products": sorted({each.lot.batch.product.code for each in everything}),
        "product": request.GET.get("product", ""),
        "only_ordered": bool(request.GET.get("order")),
        "waiting_count": len(everything),
        "held": held(),
    }


def items(asked: QueryDict) -> list[tuple[str, Item]]:
    """Every lot that the filter leaves with its verdict, in the order of the queue."""
    waiting = _narrowed(awaiting_decision(), asked)
    counts = Counter(each.verdict for each in waiting)
    return [
        (group.verdict, item)
        for group in _groups(waiting, counts)
        for item in group.items
    ]


def held() -> list[Held]:
    """The lots on hold, each with the signature that stopped it."""
    return [Held(lot, _latest_hold(lot)) for lot in on_hold()]


def _narrowed(waiting: Sequence[Waiting], asked: QueryDict) -> list[Waiting]:
    product, order = asked.get("product", ""), asked.get("order", "")
    return [
        each
        for each in waiting
        if (not product or each.lot.batch.product.code == product)
        and (not order or each.lot.order_note)
    ]


def _groups(waiting: list[Waiting], counts: Counter[Verdict]) -> list[Group]:
    lasts = lasts_of(
        [each.lot for each in waiting],
        {each.line.requirement.characteristic_id for each in waiting if each.line},
    )
    found = {
        verdict: Group(str(verdict), counts[verdict], NOTES[verdict])
        for verdict in WORST_FIRST
    }
    for each in waiting:
        row = row_of(each.line, lasts.get(each.lot.pk)) if each.line else None
        found[each.verdict].items.append(
            Item(
                lot=each.lot,
                packs=packs(each.lot),
                row=row,
                beside=_beside(each, row),
                counts=_counts(each),
                not_for=_not_for(each),
            )
        )
    return [group for group in found.values() if group.items]


def _beside(waiting: Waiting, row: Row | None) -> str:
    if waiting.line is None or row is None:
        return "held against no requirement"
    if row.value and is_outside_internal(
        waiting.line.requirement, waiting.line.compared
    ):
        return f"{row.beside}, outside the internal band {row.internal}"
    return row.beside if row.value and row.beside else row.why


def _counts(waiting: Waiting) -> str:
    """`5 met, 1 periodic, 2 sets set aside`."""
    lines = waiting.own.lines if waiting.own else ()
    met = [line for line in lines if line.verdict == Verdict.MET]
    periodic = sum(line.evidence == PERIODIC for line in met)
    aside = sum(line.result.set_aside_count for line in lines if line.result)
    parts = [f"{len(met) - periodic} met"] if len(met) > periodic else []
    parts += [f"{periodic} periodic"] if periodic else []
    parts += [f"{aside} set{'s' * (aside > 1)} set aside"] if aside else []
    return ", ".join(parts)


def _not_for(waiting: Waiting) -> tuple[str, ...]:
    return tuple(
        customer.code
        for held in waiting.held
        if held.verdict == Verdict.NOT_MET
        and (customer := held.revision.specification.customer) is not None
    )


def answer(counts: Counter[Verdict]) -> str:
    """How many lots await a decision, and how they stand."""
    total = sum(counts.values())
    if not total:
        return "No fill lot awaits a decision."
    head = f"{total} fill lots await" if total > 1 else "1 fill lot awaits"
    parts = [
        f"{counts[verdict]} {one if counts[verdict] == 1 else many}"
        for verdict, one, many in (
            (Verdict.MET, "meets every requirement", "meet every requirement"),
            (
                Verdict.NOT_MET,
                "has a requirement not met",
                "have a requirement not met",
            ),
            (
                Verdict.NOT_EVALUATED,
                "has one not evaluated",
                "have one not evaluated",
            ),
            (Verdict.NOT_TESTED, "is waiting for a test", "are waiting for a test"),
        )
        if counts[verdict]
    ]
    return f"{head} a decision. {'; '.join(parts)}."


def _latest_hold(lot: FillLot) -> Decision | None:
    return next(
        (
            decision
            for decision in lot.decisions.all()
            if decision.disposition == Decision.Disposition.HOLD
        ),
        None,
    )
