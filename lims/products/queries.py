"""Questions to products and specifications: what must be met, for whom, since when."""

from dataclasses import dataclass
from decimal import Decimal

from django.db.models import F, QuerySet

from lims.methods.queries import WORKED_PENETRATION
from lims.methods.rules import read_number
from lims.products.models import (
    Customer,
    Product,
    PublishedSpecification,
    Requirement,
    Revision,
    Specification,
)
from specs.numbers import Number

IN_FORCE = Revision.State.IN_FORCE


@dataclass(frozen=True)
class KettleTarget:
    """What the kettle must show so that the pack will be right: pack less offset, as text.

    Without a worked-penetration line in force there is a target but no limits.
    """

    target: str
    lower: str = ""
    upper: str = ""
    internal_lower: str = ""
    internal_upper: str = ""


def products() -> QuerySet[Product]:
    """Every product with its sampling plan and the published specification it names."""
    return Product.objects.select_related("sampling_plan", "published")


def product(code: str) -> Product:
    """One product by its code; raises Product.DoesNotExist."""
    return products().get(code=code)


def customer(code: str) -> Customer:
    """One customer by the code; raises Customer.DoesNotExist."""
    return Customer.objects.get(code=code)


def published(code: str) -> PublishedSpecification:
    """A published specification by its code; raises PublishedSpecification.DoesNotExist."""
    return PublishedSpecification.objects.get(code=code)


def specification_of(
    product: Product, customer: Customer | None = None
) -> Specification | None:
    """The product's own specification, or the one agreed with a customer."""
    return Specification.objects.filter(product=product, customer=customer).first()


def in_force(
    of: Product | Specification, customer: Customer | None = None
) -> Revision | None:
    """The revision in force of a specification; of a product, of its own or a customer's."""
    rows = _revisions().filter(state=IN_FORCE)
    if isinstance(of, Specification):
        return rows.filter(specification=of).first()
    return rows.filter(
        specification__product=of, specification__customer=customer
    ).first()


def customers_in_force(product: Product) -> QuerySet[Revision]:
    """The customers' revisions in force of a product, by customer code."""
    return (
        _revisions()
        .filter(
            state=IN_FORCE,
            specification__product=product,
            specification__customer__isnull=False,
        )
        .order_by("specification__customer__code")
    )


def draft_of(product: Product, customer: Customer | None = None) -> Revision | None:
    """The draft that is being written, if there is one."""
    return (
        _revisions()
        .filter(
            state=Revision.State.DRAFT,
            specification__product=product,
            specification__customer=customer,
        )
        .first()
    )


def revisions_of(product: Product) -> QuerySet[Revision]:
    """Every revision of a product, its own first, then the customers', newest first."""
    return (
        _revisions()
        .filter(specification__product=product)
        .order_by(F("specification__customer__code").asc(nulls_first=True), "-id")
    )


def requirements_of(revision: Revision) -> QuerySet[Requirement]:
    """The lines of a revision with characteristic and method edition, in one query."""
    return (
        Requirement.objects.filter(revision=revision)
        .select_related("characteristic", "edition__method")
        .order_by("line")
    )


def kettle_target(product: Product) -> KettleTarget | None:
    """The worked penetration that a kettle sample should show, or None where the product states no target or no offset."""
    if not product.pack_target or not product.kettle_offset:
        return None
    offset = read_number(product.kettle_offset, "kettle_offset").value
    target = _moved(product.pack_target, offset)
    revision = in_force(product)
    line = (
        requirements_of(revision)
        .filter(characteristic__code=WORKED_PENETRATION, kind=Requirement.Kind.LIMIT)
        .first()
        if revision
        else None
    )
    if line is None:
        return KettleTarget(target)
    return KettleTarget(
        target,
        lower=_moved(line.lower, offset),
        upper=_moved(line.upper, offset),
        internal_lower=_moved(line.internal_lower, offset),
        internal_upper=_moved(line.internal_upper, offset),
    )


def _moved(text: str, offset: Decimal) -> str:
    """A pack figure as a kettle figure; what is empty stays so."""
    if not text:
        return ""
    return Number.of(read_number(text, "limit").value - offset).canonical


def _revisions() -> QuerySet[Revision]:
    return Revision.objects.select_related(
        "specification__product",
        "specification__customer",
        "approved_by",
        "signature",
    )
