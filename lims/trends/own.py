"""Values reported here: of samples that count for a release, or of the first sample in process of each batch."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

from lims.batches.models import FillLot, HeldAgainst
from lims.bench.models import Condition, Determination, ReportedValue
from lims.people.queries import site_zone
from lims.trends.asked import Source, Where

SAMPLE, LOT, BATCH = "test__sample", "test__sample__fill_lot", "test__sample__batch"
AT_ONCE = 5000  # rows fetched together
FIELDS = (
    "test_id",
    "test__characteristic__code",
    "reported",
    f"{SAMPLE}_id",
    f"{SAMPLE}__taken_at",
    f"{SAMPLE}__place",
    f"{BATCH}__number",
    f"{BATCH}__kettle",
    f"{LOT}_id",
    f"{LOT}__number",
    f"{LOT}__letter",
    f"{LOT}__state",
    "reported_by__name",
)


@dataclass(frozen=True)
class Found:
    """One value, before it is held against limits."""

    at: dt.datetime
    day: dt.date  # on the laboratory's calendar
    characteristic: str
    batch: str
    value: str
    source: Source
    kettle: str = ""
    lot: str = ""
    lot_number: str = ""
    instruments: frozenset[str] = frozenset()
    person: str = ""
    place: str = ""
    line_id: int | None = None
    revision: int | None = None  # that its fill lot is held against
    is_words: bool = False


def reported(product: str, where: Where, code: str = "") -> QuerySet[ReportedValue]:
    """The values that stand of a product, of all characteristics or of one."""
    rows = ReportedValue.objects.filter(
        test__sample__batch__product__code=product,
        replaced_by__isnull=True,
        is_withdrawn=False,
        **_taken(where),
    )
    return rows.filter(test__characteristic__code=code) if code else rows


def _taken(where: Where) -> dict[str, Any]:
    if where == Where.FINISHED:
        return {f"{SAMPLE}__counts": True}
    return {f"{SAMPLE}__place": str(where)}


def found_here(product: str, where: Where, code: str = "") -> tuple[list[Found], int]:
    """The values in order of time, and how many of later samples in process were passed over."""
    rows = list(
        reported(product, where, code)
        .order_by(f"{SAMPLE}__taken_at", "pk")
        .values_list(*FIELDS)
    )
    revisions = _revisions(product) if where == Where.FINISHED else {}
    used = _instruments(product, where, code) if rows else {}
    persons = _persons(product, where, code) if rows else {}
    found = list(_found(rows, revisions, used, persons))
    return (found, 0) if where == Where.FINISHED else _firsts(rows, found)


def _found(
    rows: Iterable[tuple[Any, ...]],
    revisions: dict[int, int],
    used: dict[int, frozenset[str]],
    persons: dict[int, str],
) -> Iterator[Found]:
    zone = site_zone()
    for row in rows:
        test, code, value, _, at, place, batch, kettle, *lot, person = row
        lot_id, number, letter, state = lot
        here = at.astimezone(zone)
        yield Found(
            at=here,
            day=here.date(),
            characteristic=code,
            batch=batch,
            value=value,
            source=_source(state),
            kettle=kettle,
            lot=f"{number[: -len(letter) - 1]} {letter}" if number else "",
            lot_number=number or "",
            instruments=used.get(test, frozenset()),
            person=persons.get(test, person),
            place=place,
            revision=revisions.get(lot_id),
        )


def _source(state: str | None) -> Source:
    if state is None:
        return Source.FIRST_VALUE
    return Source.RELEASED if state == FillLot.State.RELEASED else Source.NOT_RELEASED


def _firsts(rows: list[tuple[Any, ...]], found: list[Found]) -> tuple[list[Found], int]:
    """Of each batch and characteristic the value of the first sample that has one: what the kettle gave before anything was corrected."""
    first: dict[tuple[str, str], int] = {}
    kept: list[Found] = []
    for row, it in zip(rows, found, strict=True):
        if first.setdefault((it.batch, it.characteristic), row[3]) == row[3]:
            kept.append(it)
    return kept, len(found) - len(kept)


def _revisions(product: str) -> dict[int, int]:
    """The product's own revision that each fill lot is held against."""
    rows = HeldAgainst.objects.filter(fill_lot__batch__product__code=product)
    return dict(rows.filter(is_own=True).order_by().values_list("fill_lot", "revision"))


def _accepted(product: str, where: Where, code: str, test: str) -> dict[str, Any]:
    """The determinations that values of these samples rest on, seen from a row that hangs on them."""
    asked: dict[str, Any] = {f"{test}__sample__batch__product__code": product}
    taken = {key.removeprefix("test__"): it for key, it in _taken(where).items()}
    asked |= {f"{test}__{key}": it for key, it in taken.items()}
    return asked | ({f"{test}__characteristic__code": code} if code else {})


def _instruments(product: str, where: Where, code: str) -> dict[int, frozenset[str]]:
    """The instruments that each test's accepted determinations used."""
    asked = _accepted(product, where, code, "determination__test")
    rows = Condition.objects.filter(
        instrument__isnull=False,
        replaced_by__isnull=True,
        determination__state=Determination.State.ACCEPTED,
        **asked,
    ).order_by()
    found: dict[int, set[str]] = defaultdict(set)
    for test, number in rows.values_list(
        "determination__test_id", "instrument__number"
    ).iterator(chunk_size=AT_ONCE):
        found[test].add(number)
    return {test: frozenset(numbers) for test, numbers in found.items()}


def _persons(product: str, where: Where, code: str) -> dict[int, str]:
    """Who began the first accepted determination of each test; of a derived value whoever reported it."""
    rows = Determination.objects.filter(
        state=Determination.State.ACCEPTED, **_accepted(product, where, code, "test")
    ).order_by("-place")
    return dict(rows.values_list("test_id", "begun_by__name"))
