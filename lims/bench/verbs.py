"""The entries that this room writes, in words."""

from lims.record.words import register

register(
    {
        "sample_received": "Sample received",
        "test_added": "Test added",
        "reading_recorded": "Reading recorded",
        "reading_corrected": "Reading corrected",
        "condition_recorded": "Condition recorded",
        "condition_corrected": "Condition corrected",
        "use_allowed": "Reading on an instrument not in service let count",
        "text_kept": "Typed text that is no value, kept",
        "trace_imported": "Curve of a run read in",
        "trace_replaced": "Curve of a run replaced",
        "curve_judged": "Curve with its lines seen and judged",
        "determination_set_aside": "Determination set aside",
    }
)
