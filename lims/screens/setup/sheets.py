"""The people, as rows of a sheet."""

from collections.abc import Iterable

from lims.people import roles
from lims.people.models import Person
from lims.screens.setup.presenting import held, state_of
from lims.sheets.exports import Export, Row, columns


def people(rows: Iterable[Person], *, with_mail: bool) -> Export:
    """One account a row; the mail addresses are for whoever keeps the accounts."""
    heads = ["Printed name", "Account", "Roles", "Account is"]
    mail = ["Mail"] if with_mail else []
    shown = (_person(row, with_mail=with_mail) for row in rows)
    return Export("people", columns(*heads, *mail), shown)


def _person(row: Person, *, with_mail: bool) -> Row:
    told = [row.name, row.account, roles.in_words(held(row)), state_of(row)]
    return [*told, row.mail] if with_mail else told
