"""The products, customers and specifications of the invented plant."""

from collections.abc import Mapping, MutableMapping
from typing import Any

from lims.methods import queries as methods
from lims.people.models import Person
from lims.people.queries import person
from lims.products import actions as products
from lims.products.lines import Line
from lims.products.models import Customer, Product


def make_goods(told: Mapping[str, Any], passwords: MutableMapping[str, str]) -> None:
    """Add the products and customers; draft each revision and have it approved."""
    technologist, approver = person("chem-1"), person("qm-1")
    plan = products.add_sampling_plan(**told["plan"], by=technologist)
    for one in told["products"]:
        products.add_product(**one, sampling_plan=plan, by=technologist)
    for one in told["customers"]:
        products.add_customer(**one, by=person("desk-1"))
    for one in told["revisions"]:
        revise(one, drafter=technologist, approver=approver, passwords=passwords)


def make_agreements(
    told: Mapping[str, Any], passwords: MutableMapping[str, str]
) -> None:
    """Put in force what the demo has agreed besides: a customer's revision by a rule with a guard band."""
    technologist, approver = person("chem-1"), person("qm-1")
    for one in told["agreements"]:
        revise(one, drafter=technologist, approver=approver, passwords=passwords)


def revise(
    told: Mapping[str, Any],
    *,
    drafter: Person,
    approver: Person,
    passwords: Mapping[str, str],
) -> None:
    """Draft one revision with its lines and approve it."""
    customer = told.get("customer")
    draft = products.open_draft(
        product=Product.objects.get(code=told["product"]),
        customer=Customer.objects.get(code=customer) if customer else None,
        number=told["number"],
        part_number=told.get("part_number", ""),
        by=drafter,
    )
    for line in told["lines"]:
        products.set_requirement(revision=draft, line=_line(line), by=drafter)
    draft.refresh_from_db()
    products.approve_revision(
        revision=draft, password=passwords[approver.account], by=approver
    )


def _line(told: Mapping[str, Any]) -> Line:
    given = dict(told)
    designation, edition = given.pop("method", (None, None))
    return Line(
        characteristic=methods.characteristic(given.pop("characteristic")),
        edition=methods.edition(designation, edition) if designation else None,
        **given,
    )
