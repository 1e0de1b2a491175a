"""Readings of one set spread over rows that belong together: combined into the one value that they give."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from specs.judging.rounding import mean
from specs.judging.steps import StepRefused, rounded
from specs.numbers import Number, NumberRefused, shortened
from specs.tables.asking import LEAVE, LEAVE_THEM, count_of, left_out, listed
from specs.tables.known import Measured
from specs.tables.numbers.converting import with_unit
from specs.tables.numbers.single import NOT_TESTED
from specs.tables.reading import NUMBERS, SETTLED, Table
from specs.tables.saying import Choice, Fate, RowRole, Said
from specs.tables.texts.marks import JOINT

MATTER = "mean or reading"
READING, MEAN = "reading", "mean"
WITHOUT = (Fate.EMPTY, Fate.LEFT_OUT)
Rows = Sequence[int]
Way = tuple[str, tuple[int, ...], str]  # a value, the places that give it, the rule


@dataclass(frozen=True)
class Combined:
    """One value out of several cells."""

    value: str
    rows: tuple[int, ...]
    rule: str


def groups_of(table: Table) -> dict[int, list[int]]:
    """The rows that belong together, by their first: only where there are several."""
    found: dict[int, list[int]] = {}
    for row, head in table.joined.items():
        if table.role(row) is RowRole.CONTINUATION:
            found.setdefault(head, [head]).append(row)
    return found


def combine(
    table: Table, letter: str, groups: Mapping[int, Rows]
) -> dict[int, list[Combined]]:
    """What each set of a column of results gives, by its first row; nothing while a cell of it waits."""
    measured = table.measured(letter)
    if measured is None:
        return {}
    sets = {head: _read(table, letter, rows) for head, rows in groups.items()}
    if measured.kind == "number":
        _ask_of_means(table, letter, sets, measured)
    found, ways = {}, _Ways(measured)
    for head, rows in sets.items():
        said = [table.at(letter, row) for row in rows]
        waits = any(it.fate not in SETTLED for it in said)
        found[head] = [] if waits else ways.combined(rows, said)
        ways.tell_readings(table, letter, rows)
    return found


def _read(table: Table, letter: str, rows: Rows) -> list[int]:
    """The rows of a set that hold a reading, waiting ones too."""
    first, said = table.block.first, table.said[letter]
    return [
        row
        for row in rows
        if (it := said[row - first]).fate not in WITHOUT and it.value != NOT_TESTED
    ]


class _Ways:
    """How the readings of sets combine; equal sets are worked out once, equal readings told once."""

    def __init__(self, measured: Measured) -> None:
        self.measured = measured
        self.known: dict[tuple[str, ...], list[Way]] = {}
        self.told: dict[tuple[int, int, int], tuple[Said, Said]] = {}

    def combined(self, rows: Rows, said: Sequence[Said]) -> list[Combined]:
        """What a set of settled cells gives."""
        if len(rows) < 2:
            pairs = zip(rows, said, strict=True)
            return [Combined(it.value, (row,), it.rule) for row, it in pairs]
        texts = tuple(it.value for it in said)
        if texts not in self.known:
            self.known[texts] = _ways(texts, self.measured)
        return [
            Combined(value, tuple(rows[place] for place in places), rule)
            for value, places, rule in self.known[texts]
        ]

    def tell_readings(self, table: Table, letter: str, rows: Rows) -> None:
        """Each reading says which one of the set it is."""
        if len(rows) < 2:
            return
        column, first = table.said[letter], table.block.first
        for place, row in enumerate(rows, 1):
            said = column[row - first]
            if said.fate in SETTLED:
                key = (id(said), place, len(rows))
                if key not in self.told:
                    self.told[key] = said, _reading(said, place, len(rows))
                column[row - first] = self.told[key][1]


def _reading(said: Said, place: int, count: int) -> Said:
    told = f"reading {place} of {count}"
    rule = f"{said.rule}; {told}" if said.rule else told
    return Said(said.fate, said.value, rule=rule)


def _ways(texts: Sequence[str], measured: Measured) -> list[Way]:
    """What several readings come to: one value, or each of them where no mean can be taken."""
    every = tuple(range(len(texts)))
    if measured.kind not in NUMBERS:
        return [_of_marks(texts, every, measured)]
    numbers = [Number.stored(text) for text in texts]
    if measured.kind == "ladder":
        lowest = min(numbers, key=_value).canonical
        return [(lowest, every, f"the lowest of {listed(texts)}")]
    if any(it.is_censored for it in numbers):
        rule = f"one of {listed(texts)}: no mean where one is a bound"
        return [(text, (place,), rule) for place, text in enumerate(texts)]
    return [_mean(numbers, every, measured)]


def _mean(numbers: Sequence[Number], every: tuple[int, ...], measured: Measured) -> Way:
    """The mean, kept exact, then reported once by the step of the characteristic, a tie to the even."""
    exact = mean([it.exact for it in numbers])
    try:
        value = Number.of(rounded(exact, measured.step))
    except StepRefused:
        value = Number.of(rounded(exact, "1"))
    told = f"mean of {listed(map(str, numbers))}: {shortened(exact)}"
    reported = f", reported as {with_unit(value, measured.unit)}"
    return value.canonical, every, told + reported


def _of_marks(texts: Sequence[str], every: tuple[int, ...], measured: Measured) -> Way:
    """The worst mark of the scale; words are told one after the other."""
    places = {mark: place for place, mark in enumerate(measured.scale)}
    parts = [text.split(JOINT) for text in texts]
    if all(mark in places for some in parts for mark in some):
        worst = max(texts, key=lambda it: max(places[mark] for mark in it.split(JOINT)))
        return worst, every, f"the worst of {listed(texts)}"
    words = "; ".join(dict.fromkeys(texts))
    return words, every, f"{len(texts)} findings"


def _ask_of_means(
    table: Table, letter: str, sets: dict[int, list[int]], measured: Measured
) -> None:
    """Ask where a reading of a set is finer than the step: it may be a mean already."""
    first, said = table.block.first, table.said[letter]
    several = {head: rows for head, rows in sets.items() if len(rows) > 1}
    read = [said[row - first] for rows in several.values() for row in rows]
    different = {id(it): it for it in read}
    finer = {key for key, it in different.items() if _is_finer(it, measured)}
    odd = {
        head: [row for row in rows if id(said[row - first]) in finer]
        for head, rows in several.items()
    }
    odd = {head: rows for head, rows in odd.items() if rows}
    if not odd:
        return
    where = sorted(row for rows in odd.values() for row in rows)
    head = next(iter(odd))
    column = table.column(letter, where)
    answer = column.ask(
        MATTER,
        range(len(where)),
        _sentence(table, letter, where, column.name),
        _choices(table, letter, sets[head], odd[head], measured),
    )
    table.ask(column.questions)
    for at, rows in odd.items():
        sets[at] = _as_answered(table, letter, sets[at], rows, answer)


def _sentence(table: Table, letter: str, where: Rows, name: str) -> str:
    text = table.at(letter, where[0]).value
    count = count_of(where, "reading")
    return (
        f"{text} in {name} is no whole unit, and further readings stand below it "
        f"({count} of this kind): is it a mean already, or a reading like the others?"
    )


def _choices(
    table: Table, letter: str, rows: Rows, odd: Rows, measured: Measured
) -> list[Choice]:
    settled = [row for row in rows if table.at(letter, row).fate in SETTLED]
    made = _Ways(measured).combined(settled, [table.at(letter, row) for row in settled])
    text = table.at(letter, odd[0]).value
    return [
        Choice(READING, "A reading: take the mean of the set", made[0].rule),
        Choice(MEAN, "A mean already: take it alone", f"{text} is taken alone"),
        LEAVE_THEM,
    ]


def _as_answered(
    table: Table, letter: str, rows: list[int], odd: Rows, answer: str
) -> list[int]:
    """The rows of a set that count, after the answer; cells that wait or are left out say so."""
    first = table.block.first
    if answer == READING:
        return rows
    if answer == MEAN:
        alone, others = odd, [row for row in rows if row not in odd]
        why = f"{table.at(letter, odd[0]).value} is the mean already."
    elif answer == LEAVE:
        alone, others, why = [], list(odd), "a mean among readings, or a reading."
    else:
        key = f"{letter}/{MATTER}"
        for row in odd:
            said = table.at(letter, row)
            why = "no whole unit: is it a mean already, or a reading?"
            table.said[letter][row - first] = Said(Fate.ASKS, said.value, said.rule, why, key)  # fmt: skip
        return rows
    for row in others:
        table.said[letter][row - first] = left_out(why)
    return list(alone) or [row for row in rows if row not in others]


def _is_finer(said: Said, measured: Measured) -> bool:
    if (
        said.fate not in SETTLED or "=" in said.rule
    ):  # a converted one is finer by right
        return False
    try:
        number = Number.stored(said.value)
        return not number.is_censored and rounded(number.exact, measured.step) != number.value  # fmt: skip
    except (NumberRefused, StepRefused):
        return False


def _value(number: Number) -> Decimal:
    return number.value
