"""The limits of a product as its own revisions stated them, one after the other, and where a value lies beside them."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache

from lims.imports.knowing import measured
from lims.methods.models import Characteristic
from lims.methods.queries import WORKED_PENETRATION
from lims.products.models import Product, Requirement, Revision
from lims.products.queries import kettle_target
from lims.trends.asked import Span, Where
from specs.tables.beside import beside
from specs.tables.known import Limits

IN_KETTLE = "kettle target of revision {number}"
KNOWN = (Revision.State.IN_FORCE, Revision.State.SUPERSEDED)


@dataclass(frozen=True)
class Held:
    """What one characteristic of a product is held against, oldest first."""

    characteristic: Characteristic
    spans: tuple[Span, ...] = ()
    by_revision: tuple[tuple[int, Span], ...] = ()

    def span_on(self, day: dt.date, revision: int | None = None) -> Span | None:
        """The limits that a fill lot was registered under, else those of the day. What is older than the first revision is held against the first."""
        of_lot = dict(self.by_revision).get(revision) if revision else None
        if of_lot or revision:
            return of_lot
        return next((it for it in self.spans if _holds(it, day)), self._first(day))

    def _first(self, day: dt.date) -> Span | None:
        first = self.spans[0] if self.spans else None
        return first if first and first.since and day < first.since else None

    def is_before(self, day: dt.date) -> bool:
        """Whether the day lies before the first revision that is known."""
        return self._first(day) is not None


def _holds(span: Span, day: dt.date) -> bool:
    return (span.since is None or span.since <= day) and (
        span.until is None or day < span.until
    )


def held(
    product: Product, characteristics: Iterable[Characteristic], where: Where
) -> dict[str, Held]:
    """What each characteristic is held against, by code, in two queries. Samples from the kettle are held against the kettle's target alone."""
    wanted = {it.pk: it for it in characteristics}
    if where != Where.FINISHED:
        return {it.code: _in_process(product, it, where) for it in wanted.values()}
    revisions = list(
        Revision.objects.filter(
            specification__product=product,
            specification__customer__isnull=True,
            state__in=KNOWN,
        ).order_by("in_force_on", "pk")
    )
    lines = _lines(revisions, wanted)
    return {it.code: _held(it, revisions, lines[it.pk]) for it in wanted.values()}


def _lines(
    revisions: list[Revision], wanted: dict[int, Characteristic]
) -> dict[int, dict[int, Requirement]]:
    """The limits by characteristic and revision."""
    found: dict[int, dict[int, Requirement]] = defaultdict(dict)
    for row in Requirement.objects.filter(
        revision__in=revisions,
        characteristic__in=wanted.keys(),
        kind=Requirement.Kind.LIMIT,
    ):
        found[row.characteristic_id][row.revision_id] = row
    return found


def _held(
    of: Characteristic, revisions: list[Revision], lines: dict[int, Requirement]
) -> Held:
    """A revision without a line for it ends what stood before: from then on there is no limit."""
    ends = [it.in_force_on for it in revisions[1:]] + [None]
    found = [
        (revision.pk, _span(revision, lines[revision.pk], until))
        for revision, until in zip(revisions, ends, strict=True)
        if revision.pk in lines
    ]
    # of two revisions of one day only the later one was ever in force through it
    spans = tuple(span for _, span in found if span.since != span.until)
    return Held(of, spans, tuple(found))


def _span(revision: Revision, line: Requirement, until: dt.date | None) -> Span:
    return Span(
        revision=revision.number,
        since=revision.in_force_on,
        until=until,
        lower=line.lower,
        upper=line.upper,
        must=line.must,
    )


def _in_process(product: Product, of: Characteristic, where: Where) -> Held:
    """The kettle's worked penetration has a target band, moved from the pack's; nothing else in process has a limit."""
    if where != Where.KETTLE or of.code != WORKED_PENETRATION:
        return Held(of)
    own = held(product, [of], Where.FINISHED)[of.code]
    target = kettle_target(product)
    if target is None or not own.spans or not (target.lower or target.upper):
        return Held(of)
    moved = replace(
        own.spans[-1],
        revision=IN_KETTLE.format(number=own.spans[-1].revision),
        lower=target.lower,
        upper=target.upper,
    )
    return Held(of, (moved,))


class Beside:
    """Within, beyond or not known; equal values beside equal limits are compared once."""

    def __init__(self, against: Held) -> None:
        self.against = against
        of = measured(against.characteristic, {})
        self._compared = cache(
            lambda value, lower, upper: beside(value, Limits(lower, upper), of)
        )

    def of(self, value: str, day: dt.date, revision: int | None = None) -> str:
        """Where the value lies beside the limits of its fill lot or of its day; empty where there are none."""
        span = self.against.span_on(day, revision)
        return self._compared(value, span.lower, span.upper) if span else ""
