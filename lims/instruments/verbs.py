"""What the record calls the acts of this room."""

from lims.record.words import register

register(
    {
        "instrument_added": "Instrument added",
        "instrument_checked": "Instrument checked",
        "instrument_taken_out": "Instrument taken out of service",
        "instrument_put_back": "Instrument put back in service",
        "instrument_retired": "Instrument retired",
        "reference_material_added": "Reference material added",
        "reference_read": "Reference material read on an instrument",
    }
)
