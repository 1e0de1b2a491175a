"""Many lots quickly: the rows of a pattern copied under other numbers, days and keys, through the open gate in bulk. The house allows that here only."""

import datetime as dt
import re
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from django.db import connection, models
from django.db.models import Max

from lims.batches.models import Batch, FillLot, HeldAgainst, Retain, Sample
from lims.bench.models import Condition, Determination, Reading, ReportedValue, Test
from lims.certificates.actions import new_code
from lims.certificates.models import Allotment, Certificate, CertificateRevision
from lims.decisions.models import Decision, FrozenVerdict
from lims.record.gate import entry
from lims.record.models import Signature
from lims.record.signatures import hash_of
from tests.speed.patterns import Patterns

# Each model and how its rows hang on a batch, what is pointed at before what points.
HANGS = {
    Batch: "pk",
    FillLot: "batch",
    HeldAgainst: "fill_lot__batch",
    Sample: "batch",
    Retain: "sample__batch",
    Test: "sample__batch",
    Determination: "test__sample__batch",
    Reading: "determination__test__sample__batch",
    Condition: "determination__test__sample__batch",
    ReportedValue: "test__sample__batch",
    Signature: "",
    Decision: "fill_lot__batch",
    FrozenVerdict: "decision__fill_lot__batch",
    Allotment: "fill_lot__batch",
    Certificate: "fill_lot__batch",
    CertificateRevision: "certificate__fill_lot__batch",
}
PAPERS = (Allotment, Certificate, CertificateRevision)
MOMENT = re.compile(r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(:\d\d)?(\.\d+)?([+-]\d\d:\d\d)?")
AT_ONCE = 40  # lots a bulk
YEAR_AND_MORE = 540  # days over which released lots are spread

Rows = dict[type[models.Model], list[models.Model]]


class Loader:
    """Adds lots in the mix of a plant: of a hundred, 92 released, 3 awaiting, 3 on test, 2 on hold."""

    def __init__(self, patterns: Patterns, *, certificates: int, lots: int) -> None:
        self.rows = {name: rows_of(batch) for name, batch in vars(patterns).items()}
        self.lots, self.certificates = lots, certificates
        self.next_key: dict[type[models.Model], int] = {}
        self.loaded = self.issued = 0

    def load_up_to(self, count: int, *, by: Any) -> None:
        """One entry, whatever its size; then the keys are told to the database."""
        with entry(
            by=by,
            verb="fill_lot_registered",
            about=self.rows["released"][FillLot][0],
            note=f"Copied until there are {count} fill lots, to measure with.",
        ):
            self.next_key = {
                model: (_all(model).aggregate(last=Max("pk"))["last"] or 0) + 1
                for model in HANGS
            }
            while self.loaded < count:
                until = min(count, self.loaded + AT_ONCE)
                self._store([self._next() for _ in range(self.loaded, until)])
        _tell_keys()

    def _store(self, copies: list[Rows]) -> None:
        """A released lot takes no more rows, so each is on test until all of it stands."""
        states = _all_on_test(copies)
        for model in HANGS:
            rows = [row for copied in copies for row in copied.get(model, [])]
            models.QuerySet(model).bulk_create(rows, batch_size=400)
        for state, keys in states.items():
            _all(FillLot).filter(pk__in=keys).update(state=state)

    def _next(self) -> Rows:
        place = self.loaded
        self.loaded += 1
        what = _mix(place)
        with_paper = what == "released" and self.issued * self.lots < (
            self.certificates * place
        )
        self.issued += with_paper
        days = 0
        if what in ("released", "with_periodic"):
            # 769 and its like walk over the whole span, so that both loads cover it
            days = 1 + place * 769 % YEAR_AND_MORE
        return self._copied(self.rows[what], place, days, with_paper=with_paper)

    def _copied(self, rows: Rows, place: int, days: int, *, with_paper: bool) -> Rows:
        one = Copy(rows, place, dt.timedelta(days=days), self.next_key)
        return {
            model: [one.of(row) for row in several]
            for model, several in rows.items()
            if with_paper or model not in PAPERS
        }


def _all_on_test(copies: list[Rows]) -> dict[str, list[int]]:
    """Set the lots back to on test; the keys of those that were in another state."""
    states: dict[str, list[int]] = defaultdict(list)
    for copied in copies:
        for lot in copied.get(FillLot, []):
            if lot.state != FillLot.State.ON_TEST:
                states[lot.state].append(lot.pk)
                lot.state = FillLot.State.ON_TEST
    return states


def _mix(place: int) -> str:
    among = place * 37 % 100  # spreads the few through the many
    if among < 3:
        return "awaiting"
    if among < 6:
        return "on_test"
    if among < 8:
        return "on_hold"
    return "with_periodic" if among < 18 else "released"


def rows_of(batch: Batch) -> Rows:
    """Everything that hangs on one batch."""
    found: Rows = {}
    for model, path in HANGS.items():
        if path:
            found[model] = list(_all(model).filter(**{path: batch.pk}).order_by("pk"))
    signed = _all(Decision).filter(fill_lot__batch=batch).values("signature")
    found[Signature] = list(_all(Signature).filter(pk__in=signed))
    return {model: found[model] for model in HANGS}


def _all(model: type[models.Model]) -> models.QuerySet:
    return models.QuerySet(model)


class Copy:
    """One pattern under another number and other keys, some days earlier."""

    def __init__(
        self,
        rows: Rows,
        place: int,
        earlier: dt.timedelta,
        next_key: dict[type[models.Model], int],
    ) -> None:
        batch = rows[Batch][0]
        self.place, self.earlier, self.next_key = place, earlier, next_key
        year = (batch.charged_on - earlier).year
        self.texts = {batch.number: f"Q1-{year % 100}-{1000 + place}"}
        self.keys: dict[type[models.Model], dict[Any, int]] = defaultdict(dict)
        for certificate in rows.get(Certificate, []):
            self.texts[certificate.number] = self._number(certificate)
        for issued in rows.get(CertificateRevision, []):
            self.texts[issued.code] = new_code()
        self.derived = {
            test.pk for test in rows[Test] if test.characteristic.is_derived
        }

    def _number(self, certificate: Certificate) -> str:
        return f"{certificate.site}-C-{certificate.year}-{self._sequence():05d}"

    def _sequence(self) -> int:
        return 1000 + self.place

    def of(self, row: models.Model) -> models.Model:
        """The row's copy, with a key of its own."""
        model = type(row)
        key = self.next_key[model]
        self.next_key[model] = key + 1
        values = {
            field.attname: self._value(field, getattr(row, field.attname))
            for field in model._meta.concrete_fields
        } | self._of_its_own(row)
        self.keys[model][row.pk] = key
        return model(**values | {model._meta.pk.attname: key})

    def _value(self, field: models.Field, value: Any) -> Any:
        if field.is_relation:
            return self.keys[field.related_model].get(value, value)
        if isinstance(value, dt.date | dt.datetime):
            return value - self.earlier
        if isinstance(value, str):
            return self._text(value)
        return value

    def _text(self, text: str) -> str:
        for old, new in self.texts.items():
            text = text.replace(old, new)
        if MOMENT.fullmatch(text):
            return str(dt.datetime.fromisoformat(text) - self.earlier)
        return text

    def _of_its_own(self, row: models.Model) -> dict[str, Any]:
        if isinstance(row, Retain):
            return {"place": f"S-{self.place:05d}"}
        if isinstance(row, Certificate):
            return {"sequence": self._sequence()}
        if isinstance(row, Signature):
            content = self._text(row.content)
            return {"content": content, "content_hash": hash_of(content)}
        if isinstance(row, ReportedValue):
            of = ReportedValue if row.test_id in self.derived else Determination
            return {"sources": [self.keys[of].get(pk, pk) for pk in row.sources]}
        return {}


def _tell_keys() -> None:
    """PostgreSQL counts keys beside the table, SQLite within; planners want to know too."""
    with connection.cursor() as cursor:
        for statement in _statements():
            cursor.execute(statement)
        cursor.execute("ANALYZE")


def _statements() -> Iterator[str]:
    from django.core.management.color import no_style

    yield from connection.ops.sequence_reset_sql(no_style(), list(HANGS))
