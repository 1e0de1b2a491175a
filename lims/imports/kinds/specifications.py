"""Products with their specifications: new products are made, the lines become drafts of the next revision, to be approved by hand."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from lims.imports.kinds import drafting
from lims.imports.kinds import lines as line_rows
from lims.imports.kinds.drafting import Here
from lims.imports.kinds.keeping import Mapped, check_form
from lims.imports.kinds.lines import Book
from lims.imports.kinds.refusing import differs, in_row, objection
from lims.imports.models import Import
from lims.people.models import Person
from lims.products.actions import products
from lims.products.models import Product, SamplingPlan
from lims.record.refusals import BadInput
from specs.tables.checked import Checked, Row
from specs.tables.forms.objections import Objection
from specs.tables.layout import Block
from specs.tables.saying import Answers
from specs.tables.sheet import Sheet

OF_PRODUCT = (
    "name", "family", "base_oil", "nlgi_aim", "designation", "pack_target",
    "kettle_offset", "safety_sheet",
)  # fmt: skip
Plans = Mapping[str, SamplingPlan]


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, held against the products, methods and revisions that stand here."""
    objects = partial(
        against, here=drafting.here(), book=line_rows.book(), plans=_plans()
    )
    return check_form(
        Import.Kind.SPECIFICATIONS, sheet, block, mapping, answers, objects=objects
    )


def against(
    rows: Sequence[Row], *, here: Here, book: Book, plans: Plans
) -> Sequence[Objection]:
    """What the laboratory's rules hold against products and their lines."""
    stating = [it for it in rows if line_rows.states_line(it)]
    return [
        *_against_products(rows, here, plans),
        *line_rows.against(stating, book),
        *drafting.against(drafting.wanted(rows, "product", "customer"), here, book),
    ]


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Make the products that are new, and a draft for each specification that the table states lines of."""
    here, book, plans = drafting.here(), line_rows.book(), _plans()
    counts = {"added": 0, "products": 0, "drafts": 0}
    known = dict(here.products)
    for code, rows in _by_product(table.rows).items():
        if code not in known:
            with in_row(rows[0].row):
                known[code] = _new(code, rows, plans)
                known[code].save()
            counts["products"] += 1
    for it in drafting.wanted(table.rows, "product", "customer"):
        customer = here.customers[it.customer] if it.customer else None
        counts["added"] += drafting.write(it, known[it.product], customer, book)
        counts["drafts"] += 1
    counts["added"] = counts["added"] or counts["products"]
    return counts


def _plans() -> Plans:
    return {it.code: it for it in SamplingPlan.objects.all()}


def _by_product(rows: Sequence[Row]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in rows:
        if row.values.get("product"):
            found.setdefault(row.values["product"], []).append(row)
    return found


def _against_products(
    rows: Sequence[Row], here: Here, plans: Plans
) -> Iterator[Objection]:
    for code, some in _by_product(rows).items():
        kept = here.products.get(code)
        if kept is None:
            yield from _against_new(code, some, plans)
        else:
            for row in some:
                yield from _differs(row, kept)


def _against_new(code: str, rows: Sequence[Row], plans: Plans) -> Iterator[Objection]:
    try:
        _new(code, rows, plans)
    except BadInput as refusal:
        yield objection(
            _row_of(rows, refusal.field), refusal, "product", {"code": "product"}
        )


def _row_of(rows: Sequence[Row], key: str) -> int:
    """The row in which the product says it, else its first."""
    return next((it.row for it in rows if it.values.get(key)), rows[0].row)


def _new(code: str, rows: Sequence[Row], plans: Plans) -> Product:
    """The product that rows describe. Raises BadInput naming the form's column."""
    said = {key: _said(rows, key) for key in OF_PRODUCT}
    plan = plans.get(_said(rows, "sampling_plan"))
    for key, what in (("name", "its name"), ("family", "its thickener")):
        if not said[key]:
            raise _needs(code, key, what)
    if plan is None:
        known = (
            ", ".join(plans) or "none is kept here yet: add one under Specifications"
        )
        raise _needs(code, "sampling_plan", f"its sampling plan ({known})")
    months = _said(rows, "shelf_life_months")
    return products.drawn_up(
        code=code,
        name=said["name"],
        family=said["family"],
        sampling_plan=plan,
        base_oil=said["base_oil"],
        nlgi_aim=said["nlgi_aim"],
        designation=said["designation"],
        pack_target=said["pack_target"],
        kettle_offset=said["kettle_offset"],
        safety_sheet=said["safety_sheet"],
        shelf_life_months=int(months) if months else None,
    )


def _needs(code: str, key: str, what: str) -> BadInput:
    return BadInput(
        f"{code} is a new product: write {what} in one of its rows, or correct its code.",
        field=key,
    )


def _said(rows: Sequence[Row], key: str) -> str:
    return next((it.values[key] for it in rows if it.values.get(key)), "")


def _differs(row: Row, kept: Product) -> Iterator[Objection]:
    here = {key: str(getattr(kept, key)) for key in OF_PRODUCT}
    here["shelf_life_months"] = str(kept.shelf_life_months or "")
    here["sampling_plan"] = kept.sampling_plan.code
    for key, stands in here.items():
        told = row.values.get(key)
        if told and told != stands:
            yield differs(row.row, key, f"Product {kept.code}", stands, told)
