"""Why a test has no result yet, in one sentence."""

from lims.bench.models import Determination, Test

NOTHING = "No reading yet."


def why_not_yet(test: Test, determination: Determination | None) -> str:
    """What is still missing, what the rule asks for, or how far the set has come."""
    if test.characteristic.is_derived:
        return test.asks or "Computed as soon as the tests it comes from are reported."
    if determination is None:
        return test.asks or NOTHING
    if _lacks_a_word(determination):
        return f"No result yet. {determination.asks[0]}"
    return test.asks or _of_the_set(determination)


def _of_the_set(it: Determination) -> str:
    if it.bars:
        return "No result: what was read is kept, and cannot count."
    if it.value:
        return "No result until the set is accepted."
    return as_sentence(it.says) or NOTHING


def as_sentence(says: str) -> str:
    """A phrase of a method with a capital and a full stop."""
    return f"{says[:1].upper()}{says[1:]}." if says else ""


def _lacks_a_word(it: Determination) -> bool:
    """All is read, and only something that a person has to give is missing."""
    return bool(it.asks and it.value and not it.is_complete and not it.bars)
