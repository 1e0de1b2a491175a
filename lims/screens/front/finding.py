"""Finding a thing by its number or name: one query a kind, however many rows there are."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Case, Model, Q, QuerySet, Value, When
from django.urls import reverse

from lims.batches.models import Batch, FillLot, Retain, Sample
from lims.certificates.models import Certificate
from lims.imports.models import HistoryLine
from lims.imports.queries import history
from lims.products.models import Customer, Product

MOST = 8  # of a kind that are shown
SHORTEST = 2  # characters before anything is looked for


@dataclass(frozen=True)
class Hit:
    """One thing found, what it is, and where it stands."""

    name: str
    note: str
    address: str


@dataclass(frozen=True)
class Group:
    """The hits of one kind; there may be more than are shown."""

    kind: str
    hits: tuple[Hit, ...]
    has_more: bool


@dataclass(frozen=True)
class Found:
    """What was looked for and found; `exact` leads to the one thing that bears the number."""

    text: str
    groups: tuple[Group, ...]
    exact: str = ""

    @property
    def is_short(self) -> bool:
        return len(self.text) < SHORTEST

    @property
    def answer(self) -> str:
        if not self.text:
            return "Type the number of a lot, sample, batch, retain or certificate, or the name of a product or customer."
        if self.is_short:
            return f"Type at least {SHORTEST} characters."
        if not self.groups:
            return f"Nothing here bears “{self.text}”."
        shown = sum(len(group.hits) for group in self.groups)
        more = " and more" if any(group.has_more for group in self.groups) else ""
        return f"{shown}{more} found for “{self.text}”."


@dataclass(frozen=True)
class Kind:
    """How one kind of thing is found and shown."""

    words: str
    rows: Callable[[], "QuerySet[Any]"]
    fields: tuple[str, ...]  # the first is its number or code
    hit: Callable[[Any], Hit]


def find(typed: str) -> Found:
    """Everything that bears the text; where a number is hit exactly, that alone."""
    text = " ".join(typed.split())[:60]
    if len(text) < SHORTEST:
        return Found(text, ())
    groups = []
    for kind in KINDS:
        rows = _rows(kind, text)
        if rows and [it.is_exact for it in rows].count(1) == 1:
            return Found(text, (), kind.hit(rows[0]).address)
        if rows:
            hits = tuple(kind.hit(row) for row in rows[:MOST])
            groups.append(Group(kind.words, hits, len(rows) > MOST))
    return Found(text, tuple(groups))


def _rows(kind: Kind, text: str) -> Sequence[Any]:
    """The best rows of a kind, the exact one first; one more than is shown tells that there are more."""
    number = re.sub(r"[\s-]+", "-", text)
    key, *names = kind.fields
    fits = Q(**{f"{key}__icontains": number})
    for name in names:
        fits |= Q(**{f"{name}__icontains": text})
    exact = Case(When(Q(**{f"{key}__iexact": number}), then=Value(1)), default=Value(0))
    rows = kind.rows().filter(fits).annotate(is_exact=exact)
    return list(rows.order_by("-is_exact", *_newest(rows.model))[: MOST + 1])


def _newest(model: type[Model]) -> tuple[str, ...]:
    by_name = model in {Customer, Product}
    return ("code",) if by_name else ("-pk",)


def _lot(lot: FillLot) -> Hit:
    note = f"{lot.batch.product.code}, {lot.state}"
    return Hit(str(lot), note, reverse("batches:lot", args=[lot.number]))


def _batch(batch: Batch) -> Hit:
    note = f"{batch.product.code}, kettle {batch.kettle}"
    return Hit(batch.number, note, reverse("batches:batch", args=[batch.number]))


def _sample(sample: Sample) -> Hit:
    note = f"{sample.batch.product.code}, {sample.place} {sample.detail}".strip()
    return Hit(sample.number, note, reverse("bench:sample", args=[sample.number]))


def _earlier(line: HistoryLine) -> Hit:
    note = f"{line.product.code}, {line.measured_on}, unverified history"
    return Hit(line.batch, note, reverse("imports:history", args=[line.pk]))


def _retain(retain: Retain) -> Hit:
    number = retain.sample.number
    address = reverse("bench:sample", args=[number])
    return Hit(retain.place, f"retain of {number}", address)


def _certificate(certificate: Certificate) -> Hit:
    note = f"{certificate.customer}, fill lot {certificate.fill_lot}"
    address = reverse("certificates:one", args=[certificate.number])
    return Hit(certificate.number, note, address)


def _product(product: Product) -> Hit:
    address = reverse("specifications:product", args=[product.code])
    return Hit(product.code, product.name, address)


def _customer(customer: Customer) -> Hit:
    address = reverse("specifications:customer", args=[customer.code])
    return Hit(customer.code, customer.name, address)


KINDS: tuple[Kind, ...] = (
    Kind(
        "Fill lots",
        lambda: FillLot.objects.select_related("batch__product"),
        ("number",),
        _lot,
    ),
    Kind(
        "Samples",
        lambda: Sample.objects.select_related("batch__product"),
        ("number",),
        _sample,
    ),
    Kind(
        "Certificates",
        lambda: Certificate.objects.select_related("customer", "fill_lot"),
        ("number", "allotment__order"),
        _certificate,
    ),
    Kind(
        "Batches",
        lambda: Batch.objects.select_related("product"),
        ("number",),
        _batch,
    ),
    Kind("Earlier batches", history, ("batch", "batch"), _earlier),
    Kind(
        "Retains", lambda: Retain.objects.select_related("sample"), ("place",), _retain
    ),
    Kind("Products", Product.objects.all, ("code", "name"), _product),
    Kind("Customers", Customer.objects.all, ("code", "name"), _customer),
)
