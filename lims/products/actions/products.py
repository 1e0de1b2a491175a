"""Sampling plans and products: adding and changing."""

from collections.abc import Sequence

from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products import rules
from lims.products.models import Product, PublishedSpecification, SamplingPlan
from lims.record.filled import check_free
from lims.record.gate import entry


def add_sampling_plan(
    *,
    code: str,
    words: str,
    places: Sequence[str],
    hours_after_filling: int = 12,
    by: Person,
) -> SamplingPlan:
    """Add a plan that says which samples count for release; the kettle never does."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    row = SamplingPlan(
        code=code.strip(),
        words=words.strip(),
        places=list(places),
        hours_after_filling=hours_after_filling,
    )
    rules.check_sampling_plan(row)
    with entry(by=by, verb="sampling_plan_added", about=row):
        check_free(row, "code")
        row.save()
    return row


def drawn_up(
    *,
    code: str,
    name: str,
    family: str,
    sampling_plan: SamplingPlan,
    base_oil: str = "",
    nlgi_aim: str = "",
    designation: str = "",
    pack_target: str = "",
    kettle_offset: str = "",
    published: PublishedSpecification | None = None,
    safety_sheet: str = "",
    shelf_life_months: int | None = None,
) -> Product:
    """A product that may be added, checked and not saved yet. Raises BadInput naming the field."""
    row = Product(
        code=code.strip(),
        name=name.strip(),
        family=family,
        sampling_plan=sampling_plan,
        base_oil=base_oil.strip(),
        nlgi_aim=nlgi_aim.strip(),
        designation=designation.strip(),
        pack_target=pack_target.strip(),
        kettle_offset=kettle_offset.strip(),
        published=published,
        safety_sheet=safety_sheet.strip(),
        shelf_life_months=shelf_life_months,
    )
    rules.check_product(row)
    check_free(row, "code")
    return row


def add_product(
    *,
    code: str,
    name: str,
    family: str,
    sampling_plan: SamplingPlan,
    base_oil: str = "",
    nlgi_aim: str = "",
    designation: str = "",
    pack_target: str = "",
    kettle_offset: str = "",
    published: PublishedSpecification | None = None,
    safety_sheet: str = "",
    shelf_life_months: int | None = None,
    by: Person,
) -> Product:
    """Add a grease as sold; its specification follows. `published` is what its lines may begin from."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    row = drawn_up(
        code=code,
        name=name,
        family=family,
        sampling_plan=sampling_plan,
        base_oil=base_oil,
        nlgi_aim=nlgi_aim,
        designation=designation,
        pack_target=pack_target,
        kettle_offset=kettle_offset,
        published=published,
        safety_sheet=safety_sheet,
        shelf_life_months=shelf_life_months,
    )
    with entry(by=by, verb="product_added", about=row):
        check_free(row, "code")
        row.save()
    return row


def change_product(
    *,
    product: Product,
    name: str,
    family: str,
    sampling_plan: SamplingPlan,
    base_oil: str,
    nlgi_aim: str,
    designation: str,
    pack_target: str,
    kettle_offset: str,
    published: PublishedSpecification | None,
    safety_sheet: str,
    shelf_life_months: int | None,
    version: int | None = None,
    by: Person,
) -> Product:
    """Change what is written about a product; its code stays."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    product.name, product.family = name.strip(), family
    product.sampling_plan = sampling_plan
    product.base_oil, product.nlgi_aim = base_oil.strip(), nlgi_aim.strip()
    product.designation = designation.strip()
    product.pack_target = pack_target.strip()
    product.kettle_offset = kettle_offset.strip()
    product.published = published
    product.safety_sheet = safety_sheet.strip()
    product.shelf_life_months = shelf_life_months
    rules.check_product(product)
    with entry(by=by, verb="product_changed", about=product):
        product.save_if_version(product.version if version is None else version)
    return product
