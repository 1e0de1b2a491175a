"""A hundred thousand stored results of one product, and a draft to hold them against. Only what a result needs is copied: batch, lot, sample, tests and their values, each value another."""

import datetime as dt
from decimal import Decimal, InvalidOperation
from typing import Any

from django.db import models
from django.db.models import Max

from lims.batches.models import Batch, FillLot, Sample
from lims.bench.models import ReportedValue, Test
from lims.decisions.rejudging import Preview
from lims.people.queries import person
from lims.products import actions, queries
from lims.products.models import Revision
from lims.record.gate import entry
from lims.screens.specifications.rejudged import answer
from tests.factories import products
from tests.speed.copying import AT_ONCE, Copy, Rows, rows_of

KEPT = (Batch, FillLot, Sample, Test, ReportedValue)
FIRST = 100_000  # numbers of batches that no other copy has
SPAN = 540  # days over which they are spread
STEPS = 401  # how many values a mean of three readings gives
WEIGHED = 20_011  # and a quotient of two masses: hardly two are equal
SPREAD = 11  # a value lies up to half of one eleventh from the pattern's: few fail
HALF = Decimal("0.5")
AIM = 5000.0  # milliseconds

GUARDED = {
    "rule": "guarded acceptance",
    "basis": "own uncertainty",
    "uncertainty": "2.16",
    "confidence": "0.95",
}


class ResultCopy(Copy):
    """One lot with values a little apart from the pattern's."""

    weighed: frozenset[int] = frozenset()  # tests of the pattern that weigh

    def _of_its_own(self, row: models.Model) -> dict[str, Any]:
        if isinstance(row, ReportedValue):
            value = self._moved(
                row.value, WEIGHED if row.test_id in self.weighed else STEPS
            )
            return {"value": value, "reported": value[:8], "replaces_id": None}
        if isinstance(row, FillLot):
            return {"state": FillLot.State.ON_TEST}
        return {}

    def _moved(self, text: str, steps: int) -> str:
        try:
            value = Decimal(text)
        except InvalidOperation:
            return text  # a rating, or words
        share = Decimal(self.place * 7919 % steps) / steps - HALF
        return str((value + abs(value) * share / SPREAD).quantize(Decimal("1e-12")))


def load_results(batch: Batch, count: int, *, by: Any) -> int:
    """Copy a tested batch until there are so many results more that a draft asks for; how many there are."""
    rows = {model: kept for model, kept in rows_of(batch).items() if model in KEPT}
    a_lot = _held_of(batch)
    places = range(FIRST, FIRST + -(-count // a_lot))
    keys = {
        model: (models.QuerySet(model).aggregate(last=Max("pk"))["last"] or 0) + 1
        for model in KEPT
    }
    note = f"Copied until there are {count} results more, to measure with."
    with entry(by=by, verb="batch_registered", about=batch, note=note):
        for start in range(places.start, places.stop, AT_ONCE * 10):
            part = range(start, min(places.stop, start + AT_ONCE * 10))
            _store([_copied(rows, place, keys) for place in part])
    return len(places) * a_lot


def _held_of(batch: Batch) -> int:
    """How many values of a batch the limits in force ask for."""
    own = queries.in_force(batch.product)
    asked = own.requirements.filter(kind="limit").values("characteristic")
    stored = ReportedValue.objects.filter(test__sample__batch=batch)
    return stored.filter(test__characteristic__in=asked).count()


def _copied(rows: Rows, place: int, keys: dict[type[models.Model], int]) -> Rows:
    days = dt.timedelta(days=1 + place * 769 % SPAN)
    one = ResultCopy(rows, place, days, keys)
    one.weighed = frozenset(
        row.pk for row in rows[Test] if row.characteristic.code == "oil-separation"
    )
    return {model: [one.of(row) for row in rows[model]] for model in KEPT}


def _store(copies: list[Rows]) -> None:
    for model in KEPT:
        rows = [row for copied in copies for row in copied[model]]
        models.QuerySet(model).bulk_create(rows, batch_size=400)


def draft() -> Revision:
    """LX2 as in force, with a guarded line of worked penetration."""
    revision = actions.open_draft(
        product=queries.product("LX2"), number="S", by=person("chem-1")
    )
    line = products.worked_line("265", "295", **GUARDED)
    actions.set_requirement(revision=revision, line=line, by=person("chem-1"))
    return revision


def draft_again() -> Revision:
    """The draft that stands already."""
    return queries.draft_of(queries.product("LX2"))


def told(preview: Preview) -> str:
    """The sentence that the page would open with."""
    return answer(preview)
