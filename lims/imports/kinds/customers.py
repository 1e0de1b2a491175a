"""Customers, and where they have one the lines agreed with them, as drafts to be approved by hand."""

from collections.abc import Iterator, Sequence
from functools import partial

from lims.imports.kinds import drafting
from lims.imports.kinds import lines as line_rows
from lims.imports.kinds.drafting import Here
from lims.imports.kinds.keeping import Mapped, check_form
from lims.imports.kinds.lines import Book
from lims.imports.kinds.refusing import differs, in_row, objection
from lims.imports.models import Import
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.people.permissions import check as check_permission
from lims.products.actions import customers
from lims.products.models import Customer
from lims.record.refusals import BadInput
from specs.tables.checked import Checked, Row
from specs.tables.forms.objections import Objection
from specs.tables.layout import Block
from specs.tables.saying import Answers
from specs.tables.sheet import Sheet

OF_CUSTOMER = ("name", "address", "mail", "language")


def check(sheet: Sheet, block: Block, mapping: Mapped, answers: Answers) -> Checked:
    """What becomes of each cell, held against the customers, products and revisions that stand here."""
    objects = partial(against, here=drafting.here(), book=line_rows.book())
    return check_form(
        Import.Kind.CUSTOMERS, sheet, block, mapping, answers, objects=objects
    )


def against(rows: Sequence[Row], *, here: Here, book: Book) -> Sequence[Objection]:
    """What the laboratory's rules hold against customers and their lines."""
    stating = [it for it in rows if line_rows.states_line(it)]
    return [
        *_against_customers(rows, here),
        *_without_product(stating),
        *line_rows.against(stating, book),
        *drafting.against(drafting.wanted(stating, "product", "code"), here, book),
    ]


def write(import_of: Import, table: Checked, by: Person) -> dict[str, int]:
    """Add the customers that are new, and a draft for each of their specifications.

    Raises NotAllowed where lines are stated by who may not draft them.
    """
    here, book = drafting.here(), line_rows.book()
    wanted = drafting.wanted(table.rows, "product", "code")
    if wanted:
        check_permission(by, Permission.DRAFT_SPECIFICATIONS)
    counts = {"added": 0, "customers": 0, "drafts": 0}
    known = dict(here.customers)
    for code, rows in _by_customer(table.rows).items():
        if code not in known:
            with in_row(rows[0].row):
                known[code] = _new(code, rows)
                known[code].save()
            counts["customers"] += 1
    for it in wanted:
        counts["added"] += drafting.write(
            it, here.products[it.product], known[it.customer], book
        )
        counts["drafts"] += 1
    counts["added"] = counts["added"] or counts["customers"]
    return counts


def _by_customer(rows: Sequence[Row]) -> dict[str, list[Row]]:
    found: dict[str, list[Row]] = {}
    for row in rows:
        if row.values.get("code"):
            found.setdefault(row.values["code"], []).append(row)
    return found


def _without_product(rows: Sequence[Row]) -> Iterator[Objection]:
    for row in rows:
        if not row.values.get("product"):
            yield Objection(
                row.row,
                "product",
                "The row states a line and does not say of which product: write its code.",
            )


def _against_customers(rows: Sequence[Row], here: Here) -> Iterator[Objection]:
    for code, some in _by_customer(rows).items():
        kept = here.customers.get(code)
        if kept is not None:
            for row in some:
                yield from _differs(row, kept)
            continue
        try:
            _new(code, some)
        except BadInput as refusal:
            at = next(
                (it.row for it in some if it.values.get(refusal.field)), some[0].row
            )
            yield objection(at, refusal, "code")


def _new(code: str, rows: Sequence[Row]) -> Customer:
    """The customer that rows describe. Raises BadInput naming the form's column."""
    said = {
        key: next((it.values[key] for it in rows if it.values.get(key)), "")
        for key in OF_CUSTOMER
    }
    if not said["name"]:
        raise BadInput(
            f"{code} is a new customer: write the name in one of its rows, or correct the code.",
            field="name",
        )
    return customers.drawn_up(
        code=code, **{**said, "language": said["language"] or Customer.Language.ENGLISH}
    )


def _differs(row: Row, kept: Customer) -> Iterator[Objection]:
    for key in OF_CUSTOMER:
        told, stands = row.values.get(key), str(getattr(kept, key))
        if told and told != stands:
            yield differs(row.row, key, f"Customer {kept.code}", stands, told)
