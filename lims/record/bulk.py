"""Many rows at once: added inside the open entry, told there by their count and one hash over all of them.

For rows of an append-only table that no person ever looks at one by one in the record,
such as a hundred thousand lines of history from one file. The entry binds every one of
them: `verify` computes the hash again.
"""

import hashlib
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from django.db import models

from lims.record import opening
from lims.record.differences import Change, state_of
from lims.record.recorded import Recorded
from lims.record.refusals import GateError
from specs import chain

ROWS = "rows"  # the field under which an entry tells of them
AT_ONCE = 2000
_PLACE = re.compile(r"([0-9]{1,18})-([0-9]{1,18})")
_AFTER = re.compile(r"([0-9]{1,18}) rows, sha256:([0-9a-f]*)")


class Claim(NamedTuple):
    """What an entry says of rows that were added together."""

    model: str
    first: int
    last: int
    number: int  # of rows
    digest: str


@dataclass(frozen=True)
class Prepared:
    """Rows that are ready to be added: what takes time was done before the entry is opened."""

    rows: Sequence[Recorded]
    name: str
    digest: str


def prepared(rows: Sequence[Recorded], *, name: str) -> Prepared:
    """Rows of one append-only table, with the hash that the entry will tell."""
    return Prepared(rows, name, digest_of(rows))


def add_prepared(told: Prepared) -> None:
    """Add rows inside the open entry; the caller sees to it that none was changed since they were prepared."""
    rows = told.rows
    if not rows:
        return
    model = type(rows[0])
    it = opening.demand(rows[0], None)
    if not model.append_only:
        raise GateError(
            f"A {model._meta.verbose_name} may change later: save each in its own right."
        )
    for start in range(0, len(rows), AT_ONCE):
        some = list(rows[start : start + AT_ONCE])
        _plain(model, it.using).bulk_create(some)
    keys = [row.pk for row in rows]
    after = f"{len(rows)} rows, sha256:{told.digest}"
    place = f"{min(keys)}-{max(keys)}"
    it.told_together(Change(model._meta.label, place, told.name, ROWS, None, after))


def _plain(model: type[Recorded], using: str) -> "models.QuerySet[Any]":
    """A queryset that writes many at once: the model's own refuses to."""
    return models.QuerySet(model, using=using)


def digest_of(rows: Iterable[Recorded]) -> str:
    """One SHA-256 over the stored states of rows in the order of their keys."""
    running = hashlib.sha256()
    for row in rows:
        running.update(chain.canonical(state_of(row)))
        running.update(b"\n")
    return running.hexdigest()


def claim_of(change: dict[str, Any]) -> Claim | None:
    """What a difference says of rows added together; None for any other difference.

    Raises ValueError for one that says nothing of the kind.
    """
    if change["field"] != ROWS or change["before"] is not None:
        return None
    place = _PLACE.fullmatch(str(change["id"]))
    after = _AFTER.fullmatch(str(change["after"]))
    if place is None or after is None:
        raise ValueError("rows added together that cannot be read")
    return Claim(
        str(change["model"]), int(place[1]), int(place[2]), int(after[1]), after[2]
    )


def wrong_with(claim: Claim) -> str | None:
    """What is wrong with rows that were added together, if anything is."""
    from django.apps import apps

    try:
        model = apps.get_model(claim.model)
    except (LookupError, ValueError):
        return (
            f"{claim.number} rows of {claim.model} were added, no such table is there"
        )
    rows = model._base_manager.filter(pk__range=(claim.first, claim.last)).order_by(
        "pk"
    )
    found = rows.count()
    if found != claim.number:
        return f"{claim.number} rows of {claim.model} were added, {found} are there"
    if digest_of(rows.iterator(chunk_size=AT_ONCE)) != claim.digest:
        return f"rows {claim.first} to {claim.last} of {claim.model} are not as added"
    return None
