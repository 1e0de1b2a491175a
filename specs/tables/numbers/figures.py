"""Numbers of a column on their way from its cells to what is taken."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from specs.numbers import Number
from specs.tables.asking import Column
from specs.tables.known import Measured
from specs.tables.numbers.converting import converted, shown
from specs.tables.saying import Fate, Said
from specs.tables.seen import Key

Places = Mapping[Key, Sequence[int]]


@dataclass(frozen=True)
class Figure:
    """A number on its way: in which unit it stands, and what is to be told of it."""

    number: Number
    unit: str = ""
    rules: tuple[str, ...] = ()
    is_converted: bool = False


@dataclass
class Reading:
    """One column of numbers while it is read: what is settled, and what is still a number on its way."""

    column: Column
    measured: Measured
    places: Places
    said: dict[Key, Said]
    figures: dict[Key, Figure]

    def where(self, keys: Iterable[Key]) -> list[int]:
        """The places of some different cells, in rows that are not left out."""
        return self.column.standing(place for key in keys for place in self.places[key])

    def settle(self, keys: Iterable[Key], of: Callable[[Key], Said]) -> None:
        """Say what becomes of some different cells; they are numbers on their way no more."""
        for key in keys:
            self.said[key] = of(key)
            self.figures.pop(key, None)


def taken(it: Figure) -> Said:
    fate = Fate.CONVERTED if it.is_converted else Fate.TAKEN
    return Said(fate, it.number.canonical, rule="; ".join(it.rules))


def waits(column: Column, matter: str, it: Figure, why: str = "") -> Said:
    return Said(
        Fate.ASKS,
        it.number.canonical,
        rule="; ".join(it.rules),
        why=why,
        question=column.key(matter),
    )


def in_unit_of(it: Figure, unit: str, measured: Measured) -> Figure:
    result = converted(it.number, unit, measured)
    rule = shown(it.number, unit, result, measured.unit)
    return Figure(result, measured.unit, (*it.rules, rule), is_converted=True)
