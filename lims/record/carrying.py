"""Writing in a migration: rows that are carried over, told in one entry of the record, with the tables as they stand at that migration."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from django.db import models

from lims.record import doors
from lims.record.differences import Touched, differences, state_of
from lims.record.opening import OpenEntry, columns_of
from specs import chain


class Thing(NamedTuple):
    """What the entry is about: the record's kind, key and name of it."""

    kind: str
    key: str
    name: str

    def record_key(self) -> tuple[str, str, str]:
        return self.kind, self.key, self.name


def carry_over(
    apps: Any,
    using: str,
    *,
    verb: str,
    about: Thing,
    rows: Sequence[tuple[models.Model, str]],
) -> None:
    """Add the rows, each with its name, and the entry that tells of them. The migration's transaction holds both or neither."""
    if not rows:
        return
    doors.lock_tail(using)
    doors.open_gate(using)
    for row, _ in rows:
        type(row)._base_manager.using(using).bulk_create([row])
    entries = apps.get_model("record", "Entry")._base_manager.using(using)
    it = OpenEntry(by=None, verb=verb, about=about, reason="", note="")
    last = entries.order_by("-seq").values_list("seq", "hash").first()
    it.previous_seq, it.previous_head = last or (0, chain.FIRST_HEAD)
    changes = [
        change
        for row, name in rows
        for change in differences(Touched(type(row), row.pk, name), None, state_of(row))
    ]
    entries.create(**columns_of(it, changes))
    doors.close_gate(using)
