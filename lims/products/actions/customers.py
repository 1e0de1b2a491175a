"""Customers: adding and changing."""

from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products import rules
from lims.products.models import Customer
from lims.record.filled import check_free
from lims.record.gate import entry


def drawn_up(
    *,
    code: str,
    name: str,
    address: str = "",
    mail: str = "",
    language: str = Customer.Language.ENGLISH,
) -> Customer:
    """A customer who may be added, checked and not saved yet. Raises BadInput naming the field."""
    row = Customer(
        code=code.strip(),
        name=name.strip(),
        address=address.strip(),
        mail=mail.strip(),
        language=language,
    )
    rules.check_customer(row)
    check_free(row, "code")
    return row


def add_customer(
    *,
    code: str,
    name: str,
    address: str = "",
    mail: str = "",
    language: str = Customer.Language.ENGLISH,
    by: Person,
) -> Customer:
    """Add somebody whom the plant delivers to."""
    check(by, Permission.KEEP_CUSTOMERS)
    row = drawn_up(code=code, name=name, address=address, mail=mail, language=language)
    with entry(by=by, verb="customer_added", about=row):
        check_free(row, "code")
        row.save()
    return row


def change_customer(
    *,
    customer: Customer,
    name: str,
    address: str,
    mail: str,
    language: str,
    version: int | None = None,
    by: Person,
) -> Customer:
    """Change what is written about a customer; the code stays, issued papers too."""
    check(by, Permission.KEEP_CUSTOMERS)
    customer.name, customer.address = name.strip(), address.strip()
    customer.mail, customer.language = mail.strip(), language
    rules.check_customer(customer)
    with entry(by=by, verb="customer_changed", about=customer):
        customer.save_if_version(customer.version if version is None else version)
    return customer
