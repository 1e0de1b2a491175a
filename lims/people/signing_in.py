"""Signing in by account and password; an unknown account takes as long as a known one."""

from typing import Any

from django.contrib.auth.backends import BaseBackend

from lims.people.models import Person
from lims.people.names import account_form
from lims.people.passwords import LONGEST


class ByAccount(BaseBackend):
    """Finds an active person by account, whatever way the name was typed."""

    def authenticate(
        self,
        request: Any,
        username: str | None = None,
        password: str | None = None,
        **credentials: Any,
    ) -> Person | None:
        typed = username if username is not None else credentials.get("account")
        if typed is None or password is None:
            return None
        people = Person.objects.filter(account=account_form(typed))
        person: Person | None = people.first()
        candidate = password[
            : LONGEST + 1
        ]  # bounds the work; the rule allows no longer
        if person is None:
            Person().set_password(candidate)  # the time of one hash, as for the known
            return None
        right = person.check_password(candidate)
        return person if right and person.is_active else None

    def get_user(self, user_id: int) -> Person | None:
        found: Person | None = Person.objects.filter(pk=user_id, is_active=True).first()
        return found
