"""Which database the demo may fill, use again or delete: its own, never a laboratory's."""

import shutil
from collections.abc import Mapping
from pathlib import Path

from django.conf import settings
from django.db import connection

from lims.management import demo_accounts
from lims.management.demo_accounts import Account
from lims.people.models import Person

NOT_OURS = (
    "This database holds people whom the demo did not make, so the demo leaves it alone: "
    "name an empty one in DATABASE_URL, or leave DATABASE_URL out to use the demo's own."
)
NOT_WHOLE = (
    "The demo's plant in this database was not built to the end, or its passwords are lost: "
    "empty the database that DATABASE_URL names, then run the same command again."
)
NOT_DELETED = (
    "--fresh deletes the demo's own SQLite database only: empty the database that "
    "DATABASE_URL names, or leave DATABASE_URL out."
)


class NotOursError(Exception):
    """The database is not one that the demo may use; the sentence says what to do."""


def name() -> str:
    """The database's name without its password."""
    one = connection.settings_dict
    where = f"{one['HOST']}:{one['PORT']}/" if one["HOST"] else ""
    return f"{connection.vendor} {where}{one['NAME']}"


def is_own() -> bool:
    """Whether it is the SQLite file that lies in the demo's own folder."""
    file = Path(str(connection.settings_dict["NAME"]))
    return connection.vendor == "sqlite" and file.parent == settings.HOME


def delete() -> None:
    """Delete the demo's own database, its files, clock and passwords."""
    if not is_own():
        raise NotOursError(NOT_DELETED)
    connection.close()
    file = Path(str(connection.settings_dict["NAME"]))
    for ending in ("", "-wal", "-shm", "-journal"):
        file.with_name(file.name + ending).unlink(missing_ok=True)
    shutil.rmtree(settings.HOME / "files", ignore_errors=True)
    (settings.HOME / "clock").unlink(missing_ok=True)
    demo_accounts.place().unlink(missing_ok=True)


def is_half_built() -> bool:
    """Whether the demo was stopped while it built its plant in its own database."""
    kept = demo_accounts.read()
    return bool(kept and is_own() and kept.database == name() and not kept.is_complete)


def accounts(passwords: Mapping[str, str]) -> tuple[Account, ...]:
    """The people who stand in the database and were given one of the passwords."""
    people = Person.objects.filter(account__in=passwords).order_by("pk")
    return tuple(
        Account(one.account, one.name, one.function, passwords[one.account])
        for one in people
    )


def kept_accounts() -> tuple[Account, ...] | None:
    """The accounts of a plant that stands there whole; None for an empty database.

    A database that is neither is refused.
    """
    here = set(Person.objects.values_list("account", flat=True))
    if not here:
        return None
    kept = demo_accounts.read()
    if kept is None or kept.database != name():
        raise NotOursError(NOT_OURS)
    if not kept.is_complete:
        raise NotOursError(NOT_WHOLE)
    if not here.issuperset(one.account for one in kept.accounts):
        raise NotOursError(NOT_OURS)
    return kept.accounts
