"""The entries that this room writes, in words."""

from lims.record.words import register

register(
    {
        "lot_released": "Fill lot released",
        "lot_put_on_hold": "Fill lot put on hold",
        "hold_ended": "Hold ended",
    }
)
