"""When a test is wanted, counted from the receipt of its sample: a waiting kettle first, then what takes long. House figures."""

import datetime as dt

from lims.methods.models import Characteristic

KETTLE = dt.timedelta(minutes=15)
STARTS_A_LONG_RUN = dt.timedelta(hours=2)
OTHERS = dt.timedelta(hours=6)
LONG_RUNS = (
    "oxidation, pressure vessel",
    "oil separation, cone sieve",
    "copper strip",
)


def takes_long(characteristic: Characteristic) -> bool:
    strokes = int(characteristic.parameters.get("strokes", "0"))
    return characteristic.procedure in LONG_RUNS or strokes > 60


def due_at(
    characteristic: Characteristic, *, received_at: dt.datetime, is_in_process: bool
) -> dt.datetime:
    if is_in_process:
        return received_at + KETTLE
    if takes_long(characteristic):
        return received_at + STARTS_A_LONG_RUN
    return received_at + OTHERS
