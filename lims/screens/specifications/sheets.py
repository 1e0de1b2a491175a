"""Products, requirements, customers and published specifications, as rows of a sheet."""

from collections.abc import Iterable, Iterator, Sequence

from django.db.models import Count, F

from lims.products import queries
from lims.products.models import (
    Customer,
    Product,
    PublishedLine,
    PublishedSpecification,
    Requirement,
    Revision,
)
from lims.screens.specifications import words
from lims.screens.specifications.presenting import ProductRow
from lims.sheets.exports import Export, Row, columns, typed

Agreed = tuple[Customer, list[Revision]]


def products(rows: Iterable[ProductRow]) -> Export:
    """One product a row: what it must meet, since when, by which rule."""
    heads = columns(
        *("Product", "Name", "Thickener family", "Base oil", "Aimed NLGI number"),
        *("Designation", "Published specification", "Sampling plan"),
        *("Pack target", "Pack less kettle", "Shelf life", "Safety data sheet"),
        *("Must meet", "Since", "By which rule", "Draft", "For customers"),
        pack_target="0.1 mm",
        pack_less_kettle="0.1 mm",
        shelf_life="months",
    )
    return Export("products", heads, map(_product, rows))


def _product(row: ProductRow) -> Row:
    it, now, draft = row.product, row.in_force, row.draft
    return [
        *(it.code, it.name, it.family, it.base_oil, it.nlgi_aim, it.designation),
        *(it.published.code if it.published else None, it.sampling_plan.code),
        *(typed(it.pack_target), typed(it.kettle_offset), it.shelf_life_months),
        *(it.safety_sheet, _number(now), now.in_force_on if now else None),
        *(row.rules, _number(draft), "; ".join(map(_agreed, row.customers))),
    ]


def _number(revision: Revision | None) -> str | None:
    return f"revision {revision.number}" if revision else None


def _agreed(revision: Revision) -> str:
    customer = revision.specification.customer
    code = customer.code if customer else ""
    return f"{code} revision {revision.number}, {revision.state}"


def requirements_of(rows: Sequence[ProductRow]) -> Export:
    """The lines of every revision in force and every draft of the products shown."""
    found = [
        it
        for row in rows
        for it in (row.in_force, row.draft, *row.customers)
        if it is not None
    ]
    return requirements(found)


def revisions(product: Product) -> Export:
    """Every revision of a product's specifications, its own first, then the customers'."""
    heads = columns(
        *("Product", "Customer", "Revision", "State", "In force from", "Approved by"),
        *("Part number", "Lines"),
    )
    rows = queries.revisions_of(product).annotate(line_count=Count("requirements"))
    found = (
        [
            *_whose(it),
            it.approved_by.name if it.approved_by else None,
            *(it.part_number, it.line_count),
        ]
        for it in rows
    )
    return Export("revisions", heads, found)


def requirements(revisions: Sequence[Revision]) -> Export:
    """The lines of revisions, one requirement a row, as they are stored."""
    heads = columns(
        *("Product", "Customer", "Revision", "State", "In force from", "Line"),
        *("Characteristic", "Conditions", "Code", "Method", "Kind", "Lower limit"),
        *("Upper limit", "Must be", "Unit", "Comparing", "Rule", "Rests on"),
        *("Asked", "Internal lower", "Internal upper", "Typical", "Copied from"),
    )
    return Export("requirements", heads, _requirements(revisions))


def _requirements(revisions: Sequence[Revision]) -> Iterator[Row]:
    lines = (
        Requirement.objects.filter(revision__in=[it.pk for it in revisions])
        .select_related(*Requirement.named_by, "edition__method")
        .order_by(
            "revision__specification__product__code",
            F("revision__specification__customer__code").asc(nulls_first=True),
            *("revision_id", "line"),
        )
    )
    for row in lines.iterator(chunk_size=500):
        yield [*_whose(row.revision), *_line(row)]


def _whose(revision: Revision) -> Row:
    of = revision.specification
    customer = of.customer.code if of.customer else None
    return [
        *(of.product.code, customer, revision.number, revision.state),
        revision.in_force_on,
    ]


def _line(row: Requirement) -> Row:
    it = row.characteristic
    return [
        *(row.line, it.name, it.conditions, it.code, str(row.edition or "")),
        *(row.kind, typed(row.lower), typed(row.upper), row.must, it.unit),
        *(row.comparing, row.rule, words.rests_on(row), words.asked(row)),
        *(typed(row.internal_lower), typed(row.internal_upper)),
        *(row.typical, words.origin(row)),
    ]


def customers(rows: Iterable[Agreed]) -> Export:
    """One customer a row, with what was agreed."""
    heads = columns(
        *("Customer", "Name", "Address", "Mail", "Certificates in", "Agreed")
    )
    return Export("customers", heads, map(_customer, rows))


def _customer(row: Agreed) -> Row:
    it, agreed = row
    told = [
        f"{rev.specification.product.code} revision {rev.number}, {rev.state}"
        for rev in agreed
    ]
    return [
        *(it.code, it.name, it.address, it.mail, it.get_language_display()),
        "; ".join(told),
    ]


def published(rows: Iterable[PublishedSpecification]) -> Export:
    """One published specification a row, with its source and standing."""
    heads = columns(
        *("Specification", "Title", "Published by", "Edition", "All of", "Lines"),
        *("Standing", "Source"),
    )
    return Export("published-specifications", heads, map(_published, rows))


def _published(row: PublishedSpecification) -> Row:
    return [
        *(row.code, row.title, row.issuer, row.edition, ", ".join(row.parts)),
        row.line_count,  # type: ignore[attr-defined]
        *(row.standing, row.source),
    ]


def published_lines() -> Export:
    """Every line of every published specification."""
    heads = columns(
        *("Specification", "Line", "Characteristic", "Conditions", "As stated"),
        *("Lower limit", "Upper limit", "Must be", "Unit", "Standing"),
        *("Checked by", "Source"),
    )
    return Export("lines", heads, _published_lines())


def _published_lines() -> Iterator[Row]:
    rows = PublishedLine.objects.select_related(*PublishedLine.named_by)
    for row in rows.order_by("specification__code", "line").iterator(chunk_size=500):
        it = row.characteristic
        yield [
            *(row.specification.code, row.line, it.name, it.conditions),
            *(row.conditions, typed(row.lower), typed(row.upper), row.must, it.unit),
            *(row.standing, row.checked_by, row.source),
        ]
