"""The demo's accounts and their passwords, kept beside its database so that each start can print them."""

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from django.conf import settings


@dataclass(frozen=True)
class Account:
    """One person of the invented plant, as printed at each start."""

    account: str
    name: str
    roles: str
    password: str


@dataclass(frozen=True)
class Kept:
    """What stands in the file: for which database, and whether its plant was built to the end."""

    database: str
    is_complete: bool
    accounts: tuple[Account, ...]


def place() -> Path:
    return Path(settings.HOME) / "demo-accounts.json"


def read() -> Kept | None:
    """None where there is no file, or none that can be read."""
    try:
        found = json.loads(place().read_text(encoding="utf-8"))
        accounts = tuple(Account(**one) for one in found["accounts"])
        return Kept(found["database"], found["is_complete"], accounts)
    except (OSError, ValueError, KeyError, TypeError):
        return None


def write(kept: Kept) -> None:
    """Replace the file; only its owner may read it."""
    place().parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    place().unlink(missing_ok=True)
    place().touch(mode=0o600)
    place().write_text(json.dumps(asdict(kept), indent=1), encoding="utf-8")


def table(accounts: Iterable[Account]) -> list[str]:
    """Lines for the terminal, in columns."""
    rows = [("Account", "Password", "Name", "Roles")]
    rows += [(one.account, one.password, one.name, one.roles) for one in accounts]
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return [
        "  ".join(
            text.ljust(width) for text, width in zip(row, widths, strict=True)
        ).rstrip()
        for row in rows
    ]
