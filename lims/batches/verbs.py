"""The entries that this room writes, in words."""

from lims.record.words import register

register(
    {
        "batch_registered": "Batch registered",
        "fill_lot_registered": "Fill lot registered",
        "retain_kept": "Retain kept",
        "allowed_without_retain": "Decision without a retain allowed",
    }
)
