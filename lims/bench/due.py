"""When a test is wanted, counted from the receipt of its sample: a waiting kettle first, then the start of what takes long. House figures."""

import datetime as dt

from lims.methods.models import Characteristic
from specs.methods.induction import INDUCTION_TIME
from specs.methods.strokes import nominal_end

KETTLE = dt.timedelta(minutes=15)
STARTS_A_RUN = dt.timedelta(hours=4)  # the strokes, the vessel
RESULT_AFTER = {  # the test itself, and some hours for the bench
    "oil separation, cone sieve": dt.timedelta(hours=36),
    "copper strip": dt.timedelta(hours=30),
    INDUCTION_TIME.name: dt.timedelta(hours=66),  # two runs, by the third day's shift
}
OTHERS = dt.timedelta(hours=30)  # by the next day's shift


def starts_a_run(characteristic: Characteristic) -> bool:
    return "hours" in characteristic.parameters or _strokes(characteristic) > 60


def _strokes(characteristic: Characteristic) -> int:
    return int(characteristic.parameters.get("strokes", "0"))


def due_at(
    characteristic: Characteristic, *, received_at: dt.datetime, is_in_process: bool
) -> dt.datetime:
    if is_in_process:
        return received_at + KETTLE
    if starts_a_run(characteristic):
        begins, strokes = received_at + STARTS_A_RUN, _strokes(characteristic)
        if characteristic.parameters.get("rest") and strokes:
            return nominal_end(begins, strokes)  # the rest begins when the strokes end
        return begins
    return received_at + RESULT_AFTER.get(characteristic.procedure, OTHERS)
