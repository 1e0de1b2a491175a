"""The form of a logger's file: when, and one or more columns of pressure or temperature."""

import re

from specs.tables.forms.form import Form, FormColumn, Reads

TIME, DAY, VALUE = "time", "day", "value"
_WORDS = {
    "s": "s", "sec": "s", "second": "s", "seconds": "s", "sekunden": "s",
    "min": "min", "minute": "min", "minutes": "min", "minuten": "min",
    "h": "h", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "std": "h", "stunden": "h",
}  # fmt: skip
MEASURES = ("pressure", "temperature")

LOG = Form(
    "log",
    "Pressure or temperature",
    TIME,
    (
        FormColumn(
            TIME,
            "Time",
            unit="min",
            note="Since the start, or day and time of each reading.",
            required=True,
            also=(
                "t", "Timestamp", "Date and time", "Datetime", "Elapsed", "Elapsed time",
                "Time stamp", "Minutes", "Seconds", "Hours", "Zeit", "Zeitstempel", "Uhrzeit",
            ),
        ),
        FormColumn(
            DAY,
            "Day",
            note="Only where it stands in a column of its own.",
            reads=Reads.DAY,
            also=("Date", "Datum", "Tag"),
        ),
        FormColumn(
            VALUE,
            "Pressure",
            unit="kPa",
            note="One column a sensor: pressure or temperature.",
            required=True,
            is_repeated=True,
            reads=Reads.NUMBER,
            also=(
                "P", "p", "Druck", "Temperature", "Temp", "T", "Temperatur", "Bath", "Bath T",
                "Bath temperature", "Vessel", "Kettle temperature", "Channel", "Value", "Signal",
            ),
        ),
    ),
)  # fmt: skip


def unit_of_time(*texts: str) -> str:
    """The unit of time that a head or a units row names: s, min, h, or empty."""
    for text in texts:
        for word in re.findall(r"[a-z]+", text.casefold()):
            if word in _WORDS:
                return _WORDS[word]
    return ""
