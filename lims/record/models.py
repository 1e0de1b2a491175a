"""The record's own tables: entries, signatures, and the gate's row on SQLite."""

import json
from typing import Any, NoReturn

from django.db import models

from lims.record import opening
from lims.record.recorded import Recorded, RecordedManager
from lims.record.refusals import GateError


class Entry(models.Model):
    """Who did what, when and why, with every difference. Text only: it outlives what it tells of."""

    seq = models.BigIntegerField(primary_key=True)
    at = models.CharField(max_length=27)
    account = models.TextField()
    printed_name = models.TextField()
    verb = models.CharField(max_length=80)
    about_kind = models.CharField(max_length=80)
    about_key = models.CharField(max_length=200)
    about_name = models.TextField()
    reason = models.TextField(blank=True)
    note = models.TextField(blank=True)
    content = models.TextField()  # exactly the text that was hashed
    previous = models.CharField(max_length=64)
    hash = models.CharField(max_length=64)

    objects = RecordedManager()

    class Meta:
        verbose_name_plural = "entries"
        ordering = ["-seq"]
        indexes = [
            models.Index(fields=["about_kind", "about_key"], name="entry_about"),
            models.Index(fields=["account", "seq"], name="entry_by_account"),
            models.Index(fields=["verb", "seq"], name="entry_by_verb"),
            models.Index(fields=["at"], name="entry_by_time"),
        ]

    def __str__(self) -> str:
        return f"entry {self.seq}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self._state.adding:
            raise GateError("An entry of the record is written once.")
        if opening.current() is None:
            raise GateError("Only the write gate adds entries to the record.")
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        raise GateError("An entry of the record is never deleted.")

    @property
    def changes(self) -> list[dict[str, Any]]:
        """The differences told by this entry, as Change has them."""
        return list(json.loads(self.content)["changes"])


class Signature(Recorded, models.Model):
    """A person's name, function, time and meaning, bound to one exact content."""

    append_only = True
    hashed_fields = frozenset({"content"})

    account = models.TextField()
    printed_name = models.TextField()
    function = models.TextField()
    at = models.DateTimeField()
    zone = models.CharField(max_length=60)
    meaning = models.TextField()
    about_kind = models.CharField(max_length=80)
    about_key = models.CharField(max_length=200)
    version = models.PositiveIntegerField()
    content = models.TextField()
    content_hash = models.CharField(max_length=64)

    objects = RecordedManager()

    class Meta:
        ordering = ["id"]
        indexes = [
            models.Index(fields=["about_kind", "about_key"], name="signature_about"),
        ]

    def __str__(self) -> str:
        return f"{self.meaning}: {self.printed_name}"

    def record_key(self) -> tuple[str, str, str]:
        return "signature", str(self.pk), f"signature of {self.printed_name}"


class OpenGate(models.Model):
    """SQLite's half of the gate: a row stands here only inside an entry's transaction."""

    class Meta:
        db_table = "record_gate"

    def __str__(self) -> str:
        return "the gate stands open"
