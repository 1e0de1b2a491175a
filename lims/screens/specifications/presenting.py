"""Products and customers as their pages show them, each with its specifications and their revisions."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Count, Prefetch, QuerySet
from django.http import Http404

from lims.people.models import Person
from lims.people.permissions import Permission, allowed
from lims.products import queries
from lims.products.models import (
    Customer,
    Product,
    Requirement,
    Revision,
    SamplingPlan,
    Specification,
)
from lims.screens.specifications import words
from lims.screens.specifications.designation import panel_of
from lims.screens.specifications.forms import CustomerForm, ProductForm
from lims.screens.zone import zone
from lims.wording import dates

State = Revision.State
EVERY, MISSING, DRAFTED = "", "missing", "draft"
FILTERS = {
    EVERY: "all products",
    MISSING: "without a specification in force",
    DRAFTED: "with a draft",
}


@dataclass
class ProductRow:
    """A product with what it must meet now and what is being written."""

    product: Product
    in_force: Revision | None = None
    draft: Revision | None = None
    customers: list[Revision] = field(default_factory=list)  # in force, or first drafts

    @property
    def has_draft(self) -> bool:
        return self.draft is not None or any(
            it.state == State.DRAFT for it in self.customers
        )

    @property
    def rules(self) -> str:
        return words.rules(self.in_force.requirements.all()) if self.in_force else ""


@dataclass
class Group:
    """One specification of a product with its revisions, newest first."""

    specification: Specification
    revisions: list[Revision]

    @property
    def customer(self) -> Customer | None:
        return self.specification.customer

    @property
    def has_draft(self) -> bool:
        return any(it.state == State.DRAFT for it in self.revisions)


def may(person: Person) -> dict[str, bool]:
    """What this person may do here."""
    return {
        "draft": allowed(person, Permission.DRAFT_SPECIFICATIONS),
        "approve": allowed(person, Permission.APPROVE_SPECIFICATIONS),
        "customers": allowed(person, Permission.KEEP_CUSTOMERS),
    }


def product_or_404(code: str) -> Product:
    try:
        return queries.product(code)
    except Product.DoesNotExist:
        raise Http404 from None


def customer_or_404(code: str) -> Customer:
    try:
        return queries.customer(code)
    except Customer.DoesNotExist:
        raise Http404 from None


def standing() -> QuerySet[Revision]:
    """Every revision in force and every draft, with whose it is and its lines."""
    return (
        Revision.objects.exclude(state=State.SUPERSEDED)
        .select_related("specification__product", "specification__customer")
        .prefetch_related(
            Prefetch("requirements", Requirement.objects.order_by("line"))
        )
        .order_by("specification__customer__code", "-state")
    )


def product_rows() -> list[ProductRow]:
    """Every product, by code, in three queries."""
    rows = {it.pk: ProductRow(it) for it in queries.products()}
    for revision in standing():
        row = rows[revision.specification.product_id]
        if revision.specification.customer_id is not None:
            row.customers.append(revision)
        elif revision.state == State.DRAFT:
            row.draft = revision
        else:
            row.in_force = revision
    return list(rows.values())


def fitting(rows: Iterable[ProductRow], text: str, state: str) -> list[ProductRow]:
    """The products that fit the filter."""
    wanted = text.strip().casefold()
    kept = [
        row
        for row in rows
        if wanted in f"{row.product.code} {row.product.name}".casefold()
    ]
    if state == MISSING:
        return [row for row in kept if row.in_force is None]
    return [row for row in kept if row.has_draft] if state == DRAFTED else kept


def answer(rows: list[ProductRow]) -> str:
    """What must be met: how many products have a specification in force, what waits."""
    if not rows:
        return "No product is kept here yet: add the first one."
    lacking = [row.product.code for row in rows if row.in_force is None]
    drafts = sum(
        (row.draft is not None) + sum(it.state == State.DRAFT for it in row.customers)
        for row in rows
    )
    told = [_have(len(rows), lacking)]
    if drafts:
        verb = "waits" if drafts == 1 else "wait"
        told.append(f"{words.number_of(drafts, 'draft')} {verb} to be approved.")
    return " ".join(told)


def _have(count: int, lacking: list[str]) -> str:
    products = words.number_of(count, "product")
    if not lacking:
        all_of = "has" if count == 1 else "each have"
        return f"{products} {all_of} a specification in force."
    having = count - len(lacking)
    return (
        f"{having} of {products} {'has' if having == 1 else 'have'} a specification in "
        f"force; without one: {', '.join(lacking[:6])}{' and more' if lacking[6:] else ''}."
    )


def customer_rows() -> list[tuple[Customer, list[Revision]]]:
    """Every customer with the revisions agreed with it that are in force or drafts."""
    found: Mapping[int, list[Revision]] = defaultdict(list)
    kept = standing().filter(specification__customer__isnull=False)
    for revision in kept.order_by("specification__product__code"):
        found[revision.specification.customer_id or 0].append(revision)
    return [(it, found[it.pk]) for it in Customer.objects.order_by("name")]


def groups(revisions: QuerySet[Revision]) -> list[Group]:
    """The revisions under their specifications, in the order they come in."""
    found: dict[int, Group] = {}
    for revision in revisions.annotate(line_count=Count("requirements")):
        group = found.setdefault(
            revision.specification_id, Group(revision.specification, [])
        )
        group.revisions.append(revision)
    return sorted(found.values(), key=lambda it: it.customer is not None)


def product_page(product: Product, person: Person) -> dict[str, Any]:
    """One product: its facts, the kettle's target, its plan, its specifications."""
    found = groups(queries.revisions_of(product))
    own = queries.in_force(product)
    asked = list(queries.requirements_of(own)) if own else []
    return {
        "product": product,
        "kettle": queries.kettle_target(product),
        "groups": found,
        "has_own_draft": any(it.customer is None and it.has_draft for it in found),
        "batch_count": product.batches.count(),
        "answer": _must_meet(product, own, asked),
        "designation": panel_of(product, asked),
        "may": may(person),
    }


def _must_meet(product: Product, own: Revision | None, rows: list[Requirement]) -> str:
    if own is None:
        return f"Nothing is asked of {product} yet: no specification of its own is in force."
    limits = [row for row in rows if row.kind == Requirement.Kind.LIMIT]
    return (
        f"{product} must meet revision {own.number}, in force since {day(own)}: "
        f"{words.number_of(len(limits), 'limit')} by {words.rules(limits) or 'no rule'}."
    )


def day(revision: Revision) -> str:
    """The day since when a revision is in force."""
    on = revision.in_force_on
    return dates.day(on, zone()) if on else ""


def customer_page(customer: Customer, person: Person) -> dict[str, Any]:
    """One customer and what was agreed with it."""
    revisions = (
        Revision.objects.filter(specification__customer=customer)
        .select_related(
            "specification__product", "specification__customer", "approved_by"
        )
        .order_by("specification__product__code", "-id")
    )
    found = groups(revisions)
    current = [r for it in found for r in it.revisions if r.state == State.IN_FORCE]
    codes = ", ".join(it.specification.product.code for it in current)
    return {
        "customer": customer,
        "groups": found,
        "answer": f"{words.number_of(len(current), 'specification')} agreed with "
        f"{customer.name} in force: {codes}."
        if current
        else f"Nothing special is agreed with {customer.name}: the products' own "
        "specifications hold.",
        "may": may(person),
    }


def now_of(form: type[ProductForm | CustomerForm], row: Any) -> dict[str, Any]:
    """What stands now, by the names of the boxes."""
    now = {name: getattr(row, name) for name in form.base_fields}
    if "sampling_plan" in now:
        now["sampling_plan"] = row.sampling_plan_id
    return now


def plans() -> QuerySet[SamplingPlan]:
    return SamplingPlan.objects.annotate(product_count=Count("products"))
