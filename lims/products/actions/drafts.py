"""Drafts of specifications: opening one, and setting and removing its requirements."""

from django.db.models import Max

from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products import lines, queries, rules, widths
from lims.products.lines import Line
from lims.products.models import (
    Customer,
    Product,
    Requirement,
    Revision,
    Specification,
)
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import BadInput, WrongMove

LAST_LINE = 999


def open_draft(
    *,
    product: Product,
    customer: Customer | None = None,
    number: str,
    part_number: str = "",
    note: str = "",
    by: Person,
) -> Revision:
    """Open the next revision of a specification as a draft, with the lines of the one in force.

    Without a customer it is the product's own. The first draft makes the specification.
    """
    check(by, Permission.DRAFT_SPECIFICATIONS)
    draft = drawn_up(
        product=product,
        customer=customer,
        number=number,
        part_number=part_number,
        note=note,
    )
    with entry(by=by, verb="draft_opened") as it:
        begin(draft, product, customer)
        it.about = draft
    return draft


def drawn_up(
    *,
    product: Product,
    customer: Customer | None,
    number: str,
    part_number: str = "",
    note: str = "",
) -> Revision:
    """A draft that may be opened, checked and not saved yet. Raises WrongMove and BadInput."""
    rules.check_may_open_draft(product, customer)
    draft = Revision(
        number=number.strip(), part_number=part_number.strip(), note=note.strip()
    )
    check_filled(draft)
    rules.check_number_is_free(product, customer, draft.number)
    return draft


def begin(draft: Revision, product: Product, customer: Customer | None) -> None:
    """Save a draft inside the open entry, with the lines of the revision in force."""
    rules.check_may_open_draft(product, customer)
    rules.check_number_is_free(product, customer, draft.number)
    draft.specification = _specification(product, customer)
    draft.save()
    old = queries.in_force(product, customer)
    for row in queries.requirements_of(old) if old else ():
        _copy(row, draft)


def _specification(product: Product, customer: Customer | None) -> Specification:
    found = queries.specification_of(product, customer)
    if found is not None:
        return found
    made = Specification(product=product, customer=customer)
    made.save()
    return made


def change_draft(
    *,
    revision: Revision,
    number: str,
    part_number: str,
    note: str,
    version: int | None = None,
    by: Person,
) -> Revision:
    """Change the number, the customer's part number or the note of a draft."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    rules.check_is_draft(revision)
    specification = revision.specification
    rules.check_number_is_free(
        specification.product, specification.customer, number.strip(), but=revision
    )
    revision.number, revision.note = number.strip(), note.strip()
    revision.part_number = part_number.strip()
    check_filled(revision)
    with entry(by=by, verb="draft_changed", about=revision):
        _raise_version(revision, version)
    return revision


def set_requirement(
    *, revision: Revision, line: Line, version: int | None = None, by: Person
) -> Requirement:
    """Add a line to a draft, or replace the one of the same characteristic and kind."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    rules.check_is_draft(revision)
    row = filled_line(revision, line)
    with entry(by=by, verb="requirement_set", about=revision):
        _raise_version(revision, version)
        row.save()
    return row


def filled_line(revision: Revision, line: Line) -> Requirement:
    """The row of a draft that the line goes into, checked and not saved yet."""
    row = _row_for(revision, line)
    lines.fill(row, line)
    row.line = _place(revision, row, line.number)
    specification = revision.specification
    if specification.customer is not None:
        own = queries.in_force(specification.product)
        widths.check_line_inside(row, widths.own_limit(own, row))
    return row


def remove_requirement(
    *, requirement: Requirement, version: int | None = None, by: Person
) -> Revision:
    """Take a line out of a draft; the record keeps what it asked for."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    revision = requirement.revision
    rules.check_is_draft(revision)
    if not revision.requirements.filter(pk=requirement.pk).exists():
        raise WrongMove("This line is no longer in the draft: look at it as it is now.")
    with entry(by=by, verb="requirement_removed", about=revision):
        _raise_version(revision, version)
        requirement.delete()
    return revision


def _row_for(revision: Revision, line: Line) -> Requirement:
    found = revision.requirements.filter(
        characteristic=line.characteristic, kind=line.kind
    ).first()
    return found or Requirement(revision=revision)


def _place(revision: Revision, row: Requirement, asked: int | None) -> int:
    """The place of the line on the paper: as asked, else as it was, else last."""
    others = revision.requirements.exclude(pk=row.pk)
    if asked is None and row.pk:
        return row.line
    if asked is None:
        last = others.aggregate(last=Max("line"))["last"]
        return (last or 0) + 1
    if not 1 <= asked <= LAST_LINE:
        raise BadInput(f"Enter a line from 1 to {LAST_LINE}.", field="number")
    taken = others.filter(line=asked).select_related("characteristic").first()
    if taken is not None:
        raise BadInput(
            f"Line {asked} is “{taken.characteristic.in_full}”: choose another number.",
            field="number",
        )
    return asked


def _copy(row: Requirement, draft: Revision) -> None:
    row.pk = None
    row.revision = draft
    row.save()


def _raise_version(revision: Revision, version: int | None) -> None:
    """A draft moves on with each change, so that a signature binds what was seen."""
    revision.save_if_version(revision.version if version is None else version)
