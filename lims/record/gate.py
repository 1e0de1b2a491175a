"""The write gate: no record, no write. Rooms import it from here."""

from lims.record.opening import Actor, OpenEntry, entry
from lims.record.recorded import (
    Recorded,
    RecordedManager,
    RecordedQuerySet,
    Versioned,
    changed_since,
)
from lims.record.refusals import GateError

__all__ = [
    "Actor",
    "GateError",
    "OpenEntry",
    "Recorded",
    "RecordedManager",
    "RecordedQuerySet",
    "Versioned",
    "changed_since",
    "entry",
]
