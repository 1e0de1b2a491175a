"""Whether the record holds: the verification's lines, the first thing wrong, and a head that was taken out."""

import time
from typing import Any

from lims.people.models import Person
from lims.people.permissions import Permission, allowed, listed
from lims.people.roles import ROLES
from lims.record import clock, queries
from lims.record.verify import verify
from lims.screens.record.forms import HeadForm
from lims.screens.record.presenting import short
from lims.wording.numbers import counts


def page(person: Any) -> dict[str, Any]:
    """Where the record stands, and who may walk it."""
    tail = queries.tail()
    who = [
        f"the {role.words}"
        for role in ROLES.values()
        if Permission.VERIFY_RECORD in role.permissions
    ]
    return {
        "tail": tail,
        "short_head": short(tail.head),
        "may_verify": isinstance(person, Person)
        and allowed(person, Permission.VERIFY_RECORD),
        "who_may": listed(who, "or"),
    }


def found(form: HeadForm) -> dict[str, Any]:
    """What a walk through the whole record finds now."""
    begun = time.monotonic()
    report = verify()
    seconds = time.monotonic() - begun
    given = form.cleaned_data
    told: dict[str, Any] = {"report": report, "seconds": f"{seconds:.1f}"}
    if given.get("head"):
        told["compared"] = compared(given["seq"], given["head"])
    return told | {"checked_at": clock.now()}


def compared(seq: int, head: str) -> tuple[str, str]:
    """A tone and a sentence: whether a head that was taken out stands in the chain."""
    entry = queries.by_number(seq)
    if entry is None:
        return "bad", (
            f"Entry {counts(seq)} is not in the record, although its head was taken out: "
            "entries are missing. Keep the server as it is and call whoever keeps it."
        )
    if entry.hash.startswith(head):
        return "good", (
            f"The head {short(head)} stands at entry {counts(seq)}: up to there nothing "
            "was altered since it was taken out."
        )
    return "bad", (
        f"Entry {counts(seq)} has the head {short(entry.hash)}, not {short(head)}: it, or "
        "an entry before it, was altered since, or a sign was copied wrongly."
    )
