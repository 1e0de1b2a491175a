"""Cells of a column of numbers that hold none: refused with what to write instead."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from specs.tables.asking import count_of, left_out
from specs.tables.numbers import single
from specs.tables.numbers.figures import Reading
from specs.tables.numbers.single import Found
from specs.tables.saying import Fate, Said
from specs.tables.seen import Key

NEGATIVE, OTHER_UNIT = "negative", "another unit"

# What is refused, after how many cells do it.
_REFUSALS = {
    single.HOLDS_FORMULA: "a formula, not a value: paste the value, or leave the cell out.",
    single.HOLDS_FAULT: "a fault, not a value: write what was read, or leave the cell out.",
    single.HOLDS_DATE: "a date where a number is wanted: write the number that was read, or leave the cell out.",
    single.HOLDS_YES_NO: "yes or no where a number is wanted: write the number, or leave the cell out.",
    single.LIMITS: "what looks like limits: write the one number that was read, or leave the cell out.",
    single.ABOUT: "only about a number: write the number that was read, or leave the cell out.",
    single.SEVERAL: "several numbers: write one, or leave the cell out.",
    single.REMARK: "words behind the number: write the number alone, or leave the cell out.",
    single.LETTER: "a letter among the digits: write the number that was read, or leave the cell out.",
    single.UNREADABLE: "what is no number: write the number that was read, or leave the cell out.",
    NEGATIVE: "a number below nought, which this characteristic cannot be: write what was read, or leave the cell out.",
    OTHER_UNIT: "a unit that measures something else: write what was read, or leave the cell out.",
}  # fmt: skip


def refuse_what_is_no_number(reading: Reading, found: Mapping[Key, Found]) -> None:
    by_matter: defaultdict[str, list[Key]] = defaultdict(list)
    for key, it in found.items():
        if it.matter in _REFUSALS:
            by_matter[it.matter].append(key)
    for matter in sorted(by_matter):
        refuse(reading, matter, by_matter[matter], found)


def refuse(
    reading: Reading, matter: str, keys: Sequence[Key], found: Mapping[Key, Found]
) -> None:
    """Refuse cells of one matter, each with its own reason and what is proposed instead."""
    where = reading.where(keys)
    holds = f"{count_of(where)} of {reading.column.name} hold"
    sentence = f"{holds}{'s' if len(where) == 1 else ''} {_REFUSALS[matter]}"
    is_left = reading.column.refuse(matter, where, sentence)

    def refused(key: Key) -> Said:
        it = found[key]
        if is_left:
            return left_out(it.why)
        proposed = it.number.canonical if it.number else ""
        question = reading.column.key(matter)
        return Said(Fate.REFUSED, proposed, why=it.why, question=question)

    reading.settle(keys, refused)


def refuse_negative(reading: Reading) -> None:
    if reading.measured.is_signed or reading.measured.unit == "°C":
        return
    below = {
        key: Found(matter=NEGATIVE, why=f"{it.number} is below nought: write what was read.")
        for key, it in reading.figures.items()
        if it.number.value < 0
    }  # fmt: skip
    if below:
        refuse(reading, NEGATIVE, list(below), below)
