"""What was read and what it means: tests, determinations, readings, conditions, reported values."""

from lims.bench.models.measured import Condition, Determination, Reading, Test, Trace
from lims.bench.models.reported import ReportedValue, UseAllowed

__all__ = [
    "Condition",
    "Determination",
    "Reading",
    "ReportedValue",
    "Test",
    "Trace",
    "UseAllowed",
]
