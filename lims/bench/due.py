"""When a test is wanted, counted from the receipt of its sample: a waiting kettle first, then the start of what takes long. House figures."""

import datetime as dt

from lims.methods.models import Characteristic

KETTLE = dt.timedelta(minutes=15)
STARTS_A_RUN = dt.timedelta(hours=4)  # the strokes, the vessel
RESULT_AFTER = {  # the test itself, and some hours for the bench
    "oil separation, cone sieve": dt.timedelta(hours=36),
    "copper strip": dt.timedelta(hours=30),
}
OTHERS = dt.timedelta(hours=30)  # by the next day's shift


def starts_a_run(characteristic: Characteristic) -> bool:
    strokes = int(characteristic.parameters.get("strokes", "0"))
    return "hours" in characteristic.parameters or strokes > 60


def due_at(
    characteristic: Characteristic, *, received_at: dt.datetime, is_in_process: bool
) -> dt.datetime:
    if is_in_process:
        return received_at + KETTLE
    if starts_a_run(characteristic):
        return received_at + STARTS_A_RUN
    return received_at + RESULT_AFTER.get(characteristic.procedure, OTHERS)
