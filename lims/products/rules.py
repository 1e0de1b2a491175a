"""What may stand in a product, a plan or a customer, and what may be done to a revision."""

import datetime as dt

from django.core.exceptions import ValidationError
from django.core.validators import validate_email

from lims.methods.rules import read_number
from lims.products.models import (
    Customer,
    Product,
    Requirement,
    Revision,
    SamplingPlan,
)
from lims.record.filled import check_filled, check_free
from lims.record.refusals import BadInput, WrongMove
from specs.judging.rules import RULES, SIMPLE_ACCEPTANCE

PLACES = ("after mill", "pack", "tote", "bulk")  # the kettle counts for no release
LONGEST_WAIT_HOURS = 1000


def check_sampling_plan(row: SamplingPlan) -> None:
    """Refuse a plan that names no place, or one that never counts."""
    check_filled(row)
    check_free(row, "code")
    unknown = [place for place in row.places if place not in PLACES]
    if unknown or not row.places:
        raise BadInput(
            f"Say where the samples are taken: {', '.join(PLACES)}. "
            "A sample from the kettle counts for no release.",
            field="places",
        )
    if not 0 <= row.hours_after_filling <= LONGEST_WAIT_HOURS:
        raise BadInput(
            f"Enter 0 to {LONGEST_WAIT_HOURS} hours after filling.",
            field="hours_after_filling",
        )


def check_product(row: Product) -> None:
    """Refuse a product whose texts or numbers cannot stand."""
    check_filled(row)
    for field in ("pack_target", "kettle_offset"):
        if getattr(row, field):
            setattr(row, field, read_number(getattr(row, field), field).canonical)
    if row.kettle_offset and not row.pack_target:
        raise BadInput(
            "An offset needs the target that it is taken from: enter the pack target.",
            field="pack_target",
        )
    if row.shelf_life_months is not None and not 1 <= row.shelf_life_months <= 600:
        raise BadInput(
            "Enter 1 to 600 months, or leave it out.", field="shelf_life_months"
        )


def check_customer(row: Customer) -> None:
    """Refuse a customer whose texts cannot stand."""
    check_filled(row)
    if not row.mail:
        return
    try:
        validate_email(row.mail)
    except ValidationError:
        raise BadInput(
            f"“{row.mail}” is no mail address: correct it, or leave it out.",
            field="mail",
        ) from None


def check_may_open_draft(product: Product, customer: Customer | None) -> None:
    """Refuse a second draft of one specification."""
    draft = Revision.objects.filter(
        specification__product=product,
        specification__customer=customer,
        state=Revision.State.DRAFT,
    ).first()
    if draft is not None:
        raise WrongMove(
            f"There is a draft already, revision {draft.number}: change that one, "
            "or have it approved."
        )


def check_number_is_free(
    product: Product,
    customer: Customer | None,
    number: str,
    *,
    but: Revision | None = None,
) -> None:
    """Refuse a revision number that the specification has had."""
    twins = Revision.objects.filter(
        specification__product=product,
        specification__customer=customer,
        number=number,
    )
    if but is not None:
        twins = twins.exclude(pk=but.pk)
    if twins.exists():
        raise BadInput(
            f"Revision {number} of this specification stands already: "
            "choose another number.",
            field="number",
        )


def check_is_draft(revision: Revision) -> None:
    """Refuse changing what has been approved."""
    if revision.state != Revision.State.DRAFT:
        raise WrongMove(
            f"Revision {revision.number} is {revision.state} and cannot change: "
            "open a draft of the next one."
        )


def check_has_lines(revision: Revision) -> None:
    """Refuse approving a draft that asks for nothing."""
    if not revision.requirements.exists():
        raise WrongMove(
            f"Revision {revision.number} has no requirement: add one, then approve it."
        )
    if revision.specification.customer_id is not None:
        return
    limits = revision.requirements.filter(kind=Requirement.Kind.LIMIT)
    if not limits.exclude(scope=Requirement.Scope.PERIODIC).exists():
        raise WrongMove(
            f"Revision {revision.number} asks for nothing of each fill lot or batch, so "
            "no lot could be decided on by it: add a limit of such a line, then approve it."
        )


def check_day(in_force_on: dt.date, today: dt.date) -> None:
    """Refuse any day but this one: what was approved today held for nothing before."""
    if in_force_on != today:
        raise BadInput(
            "A revision comes into force on the day it is approved: "
            f"enter {today.isoformat()}.",
            field="in_force_on",
        )


def check_can_copy_with(comparing: str, rule: str) -> None:
    """Refuse copying without a procedure, and with a rule that needs an uncertainty for each line."""
    if comparing not in Requirement.Comparing.values:
        raise BadInput(
            "Name the procedure for comparing, rounding or absolute: "
            "there is no default.",
            field="comparing",
        )
    if rule not in RULES:
        raise BadInput(
            f"Name the decision rule, one of {', '.join(RULES)}: there is no default.",
            field="rule",
        )
    if rule != SIMPLE_ACCEPTANCE:
        raise BadInput(
            f"By {rule} each line needs its own uncertainty: copy the lines by "
            f"{SIMPLE_ACCEPTANCE}, then change the rule line by line.",
            field="rule",
        )


def check_origin(requirement: Requirement, checked_by: str) -> None:
    """Refuse a check of a line that comes from nowhere, or one without a name."""
    if not requirement.origin:
        raise WrongMove(
            f"Line {requirement.line} was not copied from a published specification: "
            "there is nothing to compare it with."
        )
    if not checked_by.strip():
        raise BadInput(
            "Say who compared the line with the laboratory's own copy.",
            field="checked_by",
        )
