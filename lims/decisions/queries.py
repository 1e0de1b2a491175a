"""Questions about decisions: what awaits one, worst verdict first; what is on hold; the release that stands."""

import datetime as dt
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import QuerySet

from lims.batches.models import FillLot
from lims.decisions.models import Decision, FrozenVerdict
from lims.decisions.nearness import nearness
from lims.decisions.verdicts import Held, Line, held_of_all
from specs.judging.verdicts import WORST_FIRST, Verdict

FAR = dt.date.max


@dataclass(frozen=True)
class Waiting:
    """A lot that awaits a decision and the line that decides."""

    lot: FillLot
    held: tuple[Held, ...]
    verdict: Verdict
    line: Line | None

    @property
    def own(self) -> Held | None:
        return next((held for held in self.held if held.is_own), None)


def awaiting_decision(lots: QuerySet[FillLot] | None = None) -> list[Waiting]:
    """Worst verdict first; within a verdict by when the goods must leave, then the nearest to a limit."""
    if lots is None:
        lots = FillLot.objects.filter(state=FillLot.State.AWAITING_DECISION)
    found = list(lots.select_related("batch__product"))
    held = held_of_all(found)
    waiting = [_waiting(lot, held[lot.pk]) for lot in found]
    return sorted(waiting, key=_order)


def _waiting(lot: FillLot, held: tuple[Held, ...]) -> Waiting:
    own = next((each for each in held if each.is_own), None)
    if own is None:
        return Waiting(lot, held, Verdict.NOT_EVALUATED, None)
    return Waiting(lot, held, own.verdict, deciding_line(own))


def deciding_line(held: Held) -> Line | None:
    """The worst line, or of met lines the one nearest to a limit."""
    counting = [line for line in held.lines if line.verdict is not None]
    return min(
        counting,
        key=lambda line: (
            WORST_FIRST.index(line.verdict or Verdict.NOT_EVALUATED),
            nearness(line),
        ),
        default=None,
    )


def _order(waiting: Waiting) -> tuple[int, dt.date, Decimal, str]:
    near = nearness(waiting.line) if waiting.line else Decimal(0)
    return (
        WORST_FIRST.index(waiting.verdict),
        waiting.lot.leaves_on or FAR,
        near,
        waiting.lot.number,
    )


def on_hold() -> QuerySet[FillLot]:
    return (
        FillLot.objects.filter(state=FillLot.State.ON_HOLD)
        .select_related("batch__product")
        .prefetch_related("decisions__decided_by")
    )


def release_of(lot: FillLot) -> Decision | None:
    """The release under which a lot stands now; none while it is not released."""
    if lot.state != FillLot.State.RELEASED:
        return None
    return (
        lot.decisions.filter(disposition=Decision.Disposition.RELEASE)
        .select_related("signature", "decided_by")
        .order_by("-decided_at", "-pk")
        .first()
    )


def last_values(lot: FillLot, *, count: int = 10) -> dict[int, list[str]]:
    """The reported values of the last released lots of the product before this one, by characteristic: the dots under a ruler."""
    earlier = list(
        FillLot.objects.filter(
            batch__product=lot.batch.product_id,
            state=FillLot.State.RELEASED,
            filled_at__lt=lot.filled_at,
        )
        .order_by("-filled_at")
        .values_list("pk", flat=True)[:count]
    )
    values: dict[int, list[str]] = {}
    seen: set[tuple[int, int]] = set()
    for lot_id, characteristic, reported in (
        FrozenVerdict.objects.filter(
            decision__fill_lot__in=earlier,
            decision__disposition=Decision.Disposition.RELEASE,
            evidence="tested on this lot",
        )
        .order_by("-decision_id")
        .values_list("decision__fill_lot", "requirement__characteristic", "reported")
    ):
        if (lot_id, characteristic) not in seen:
            seen.add((lot_id, characteristic))
            values.setdefault(characteristic, []).append(reported)
    return values
