"""The list of people."""

from typing import Any

import django_tables2 as tables
from django.urls import reverse
from django.utils.html import format_html
from django.utils.safestring import SafeString

from lims.people import roles
from lims.people.models import Person
from lims.screens.setup.presenting import held, state_of
from lims.screens.sorting import Listing


class PeopleTable(Listing):
    """One person a row; the mail addresses are for the administrator."""

    name = tables.Column("Printed name")
    account = tables.Column("Account", attrs={"td": {"class": "code"}})
    roles = tables.Column("Roles", accessor="account", orderable=False)
    state = tables.Column(
        "Account is", empty_values=(), order_by=("-is_active", "invited")
    )
    mail = tables.Column("Mail", default="")
    caption = "People, active accounts first"
    caption_unseen = True

    def render_name(self, value: str, record: Person) -> SafeString:
        address = reverse("setup:person", args=[record.account])
        return format_html('<a href="{}">{}</a>', address, value)

    def render_roles(self, record: Person) -> str:
        return roles.in_words(held(record)) or "none yet"

    def render_state(self, record: Person) -> str:
        return state_of(record)


def people_table(rows: Any, *, with_mail: bool) -> PeopleTable:
    return PeopleTable(rows, exclude=() if with_mail else ("mail",))
