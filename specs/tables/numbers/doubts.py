"""Numbers that are read but doubted: measured again, with a blank inside, in millimetres, out of range. Asked once a column."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from specs.tables.asking import CELL, LEAVE, LEAVE_THEM, count_of, left_out
from specs.tables.numbers import single
from specs.tables.numbers.figures import Figure, Reading, in_unit_of, taken, waits
from specs.tables.numbers.plausible import is_within
from specs.tables.numbers.single import Found
from specs.tables.saying import Choice
from specs.tables.seen import Key

MILLIMETRES, OUT_OF_RANGE = "millimetres", "out of range"
TAKE, JOINED, AS_MM, AS_WRITTEN = "take", "joined", "mm", "as written"


def ask_of_repeats(reading: Reading, found: Mapping[Key, Found]) -> None:
    """Numbers marked as measured again, whose first results are missing."""
    keys = [key for key, it in found.items() if it.matter == single.RETEST]
    if not keys:
        return
    where = reading.where(keys)
    answer = reading.column.ask(
        single.RETEST,
        where,
        f"{count_of(where, 'result')} of {reading.column.name} "
        f"{'is' if len(where) == 1 else 'are'} marked as measured again, such as "
        f"“{keys[0][1].strip()}”; the first result is missing. What is to be done?",
        [Choice(TAKE, "Take them, marked as measured again"), LEAVE_THEM],
    )
    why = "marked as measured again: the first result is missing."
    _carry_on(reading, single.RETEST, {key: found[key] for key in keys}, answer, why)


def ask_of_blanks(reading: Reading, found: Mapping[Key, Found]) -> None:
    """Numbers with a blank inside."""
    keys = [key for key, it in found.items() if it.matter == single.BLANK]
    if not keys:
        return
    where = reading.where(keys)
    numbers = list(dict.fromkeys(str(found[key].number) for key in keys))
    answer = reading.column.ask(
        single.BLANK,
        where,
        f"{count_of(where)} of {reading.column.name} "
        f"{'has' if len(where) == 1 else 'have'} a blank inside the number, such as "
        f"“{keys[0][1].strip()}”. Is it one number?",
        [Choice(JOINED, "One number", f"{keys[0][1].strip()} is {numbers[0]}"), LEAVE_THEM],
        level=CELL,
        proposed=JOINED,
        takes_text=True,
    )  # fmt: skip
    why = "has a blank inside."
    _carry_on(reading, single.BLANK, {key: found[key] for key in keys}, answer, why)


def _carry_on(
    reading: Reading, matter: str, found: Mapping[Key, Found], answer: str, why: str
) -> None:
    """Go on with numbers whose form was asked about, once it was answered."""
    for key, it in found.items():
        if it.number is None:
            continue
        figure = Figure(it.number, it.unit)
        text = key[1].strip()
        if answer == LEAVE:
            reading.said[key] = left_out(f"“{text}” {why}")
        elif answer == TAKE:
            rule = f"“{text}”: measured again, the first result is missing"
            reading.figures[key] = replace(figure, rules=(rule,), is_converted=True)
        elif answer == JOINED:
            rule = f"“{text}” read as {it.number}"
            reading.figures[key] = replace(figure, rules=(rule,), is_converted=True)
        else:
            reading.said[key] = waits(reading.column, matter, figure, it.why or f"“{text}” {why}")  # fmt: skip


def ask_of_millimetres(reading: Reading, says_mm: Callable[[int], bool]) -> None:
    """Penetrations ten times too small may have been read in millimetres."""
    measured = reading.measured
    if measured.unit != "0.1 mm" or measured.is_signed:
        return
    holds = is_within(measured)
    keys = [
        key
        for key, it in reading.figures.items()
        if not it.is_converted and not holds(it.number.value) and holds(it.number.value * 10)
    ]  # fmt: skip
    if not keys:
        return
    where = reading.where(keys)
    first = reading.figures[keys[0]]
    in_tenths = in_unit_of(first, "mm", measured)
    told = sum(says_mm(place) for place in where)
    speaks = f"; the remark of {told} says mm" if told else ""
    answer = reading.column.ask(
        MILLIMETRES,
        where,
        f"{count_of(where, 'number')} of {reading.column.name} "
        f"{'is' if len(where) == 1 else 'are'} ten times smaller than a penetration, such as "
        f"{first.number}{speaks}. Were they written in millimetres?",
        [
            Choice(AS_MM, "In millimetres", in_tenths.rules[-1]),
            Choice(AS_WRITTEN, "In 0.1 mm, as written", f"{first.number} stays"),
            LEAVE_THEM,
        ],
        proposed=AS_MM if told else "",
    )
    for key in keys:
        _as_millimetres(reading, key, answer)


def _as_millimetres(reading: Reading, key: Key, answer: str) -> None:
    figure = reading.figures[key]
    if answer == LEAVE:
        reading.settle([key], lambda _: left_out("perhaps in millimetres."))
    elif answer == AS_MM:
        reading.figures[key] = in_unit_of(
            replace(figure, rules=()), "mm", reading.measured
        )
    elif answer == AS_WRITTEN:
        rules = (*figure.rules, "in 0.1 mm, as answered")
        reading.settle([key], lambda _: taken(replace(figure, rules=rules)))
    else:
        why = "Was it written in millimetres?"
        reading.settle([key], lambda _: waits(reading.column, MILLIMETRES, figure, why))  # fmt: skip


def ask_of_range(reading: Reading) -> None:
    """Numbers that nobody would believe without looking again."""
    holds = is_within(reading.measured)
    keys = [key for key, it in reading.figures.items() if not holds(it.number.value)]
    if not keys:
        return
    where = reading.where(keys)
    firsts = ", ".join(str(reading.figures[key].number) for key in keys[:5])
    answer = reading.column.ask(
        OUT_OF_RANGE,
        where,
        f"{count_of(where, 'result')} of {reading.column.name} "
        f"{'lies' if len(where) == 1 else 'lie'} outside what is plausible: {firsts}. "
        "Are they to be taken?",
        [Choice(TAKE, "Take them as they stand"), LEAVE_THEM],
        takes_text=True,
    )
    for key in keys:
        _out_of_range(reading, key, answer)


def _out_of_range(reading: Reading, key: Key, answer: str) -> None:
    figure = reading.figures[key]
    why = f"{figure.number} lies outside what is plausible."
    if answer == TAKE:
        rules = (*figure.rules, "outside what is plausible, taken as answered")
        reading.settle([key], lambda _: taken(replace(figure, rules=rules)))
    elif answer == LEAVE:
        reading.settle([key], lambda _: left_out(why))
    else:
        reading.settle([key], lambda _: waits(reading.column, OUT_OF_RANGE, figure, why))  # fmt: skip
