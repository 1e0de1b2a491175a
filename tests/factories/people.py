"""A founded site and its people, built by the real actions.

Password of everybody: PASSWORD. Accounts are the role's key (or keys, joined by a full stop).
"""

from lims.people import actions, tokens
from lims.people.models import Person
from lims.people.roles import ADMINISTRATOR

PASSWORD = "seven quiet herons"
SITE = {
    "code": "Q1",
    "name": "Quernstone Grease Works",
    "laboratory": "Works laboratory",
    "address": "1 Millrace Lane\nQuernstone",
    "mail": "laboratory@quernstone.example",
    "quality_mail": "quality@quernstone.example",
    "check_address": "https://check.quernstone.example",
}


def found_plant(**settings):
    """Found the site and let the first administrator in."""
    actions.found_site(**SITE | settings, by=None)
    first = actions.invite_first_administrator(
        account=ADMINISTRATOR, name="Ada Ministrator"
    )
    return let_in(first)


def let_in(person, password=PASSWORD):
    """Accept a person's invitation with a password."""
    token = tokens.token_for(person)
    actions.accept_invitation(person=person, token=token, password=password, by=person)
    return person


def invited(administrator, account, *given, name=""):
    """A person who has not chosen a password yet."""
    return actions.invite(
        account=account,
        name=name or account.replace("_", " ").replace(".", " ").title(),
        given=given,
        by=administrator,
    )


class Staff:
    """The people of a plant, one for each set of roles, made when first asked for."""

    def __init__(self, administrator: Person) -> None:
        self.administrator = administrator

    def of(self, *given: str, account: str = "") -> Person:
        account = account or ".".join(given) or "newcomer"
        found = Person.objects.filter(account=account).first()
        return found or let_in(invited(self.administrator, account, *given))
