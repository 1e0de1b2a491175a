"""The four decision rules with something to rest on, for the tests of rules."""

from specs.judging.conformity import ROUNDING
from specs.judging.rules import (
    GUARDED_ACCEPTANCE,
    OWN,
    RECIPIENT,
    SIMPLE_ACCEPTANCE,
    SUPPLIER,
    judge_by,
)

GUARD = {"uncertainty": "2.16", "basis": OWN, "confidence": "0.95"}
STATED = {
    SIMPLE_ACCEPTANCE: {},
    GUARDED_ACCEPTANCE: GUARD,
    RECIPIENT: {"uncertainty": "13"},
    SUPPLIER: {"uncertainty": "13"},
}


def verdict_by(name, value, lower, upper, procedure=ROUNDING, **stated):
    return judge_by(
        name, value, lower, upper, procedure, **{**STATED[name], **stated}
    ).verdict
