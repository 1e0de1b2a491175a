"""In which unit the numbers of a column stand: said by its head, beyond doubt, or asked once with all that is odd about it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from itertools import product

from specs.numbers import Number
from specs.tables.asking import LEAVE, Column, listed
from specs.tables.known import Measured
from specs.tables.numbers.converting import converted, same_measure, with_unit
from specs.tables.numbers.plausible import is_within
from specs.tables.saying import Choice
from specs.tables.seen import Key
from specs.units import UNITS, named

MATTER = "unit"
PART = "; "  # between the unit of a column and what is said of its odd parts
ALTERNATIVES = {
    "pressure": ("kPa", "psi", "bar", "kgf/cm²", "MPa"),
    "force": ("N", "kgf", "lbf"),
    "temperature": ("°C", "°F"),
}
ALWAYS_ASKED = (
    "pressure",
    "force",
)  # plants differ in these, and their numbers overlap
APART = 20  # times the median: not in the same unit
NEAR = 4  # times the median: could be one of the others
MOST_NAMED = 3


@dataclass(frozen=True)
class Unitless:
    """A number without a unit of its own, and where it stands."""

    key: Key
    number: Number
    places: Sequence[int]


@dataclass(frozen=True)
class Part:
    """Numbers far from the others of their column."""

    label: str
    keys: frozenset[Key]
    middle: Decimal


def unit_of_each(
    column: Column,
    measured: Measured,
    stated: str,
    numbers: Sequence[Unitless],
    told: Sequence[Decimal] = (),
) -> tuple[dict[Key, str], str]:
    """The unit of each number: `leave` to leave it out, empty while it is asked; and what is said of how it is known.

    `stated` is the unit of the column's head, `told` are the values of cells that state
    theirs: a unit that puts the others far from them is not offered. Numbers whose characteristic has no unit,
    or one that nothing converts to, are taken as they stand.
    """
    head = named(stated) or stated.strip()
    whence = "its row" if column.of else "the head"
    if not measured.unit or not ALTERNATIVES.get(_measures(measured)):
        if head == measured.unit or not same_measure(head, measured.unit):
            return _all(numbers, measured.unit), ""
        return _all(numbers, head), f"in {head}, as {whence} says"
    if same_measure(head, measured.unit):
        return _all(numbers, head), f"in {head}, as {whence} says"
    if not numbers:
        return {}, ""
    if head or _is_asked(measured, numbers):
        return _asked(column, measured, head, numbers, told), ""
    return _all(numbers, measured.unit), f"in {measured.unit}: {whence} states no unit"


def _measures(measured: Measured) -> str:
    return UNITS[measured.unit].measures if measured.unit in UNITS else ""


def _all(numbers: Sequence[Unitless], unit: str) -> dict[Key, str]:
    return {it.key: unit for it in numbers}


def _is_asked(measured: Measured, numbers: Sequence[Unitless]) -> bool:
    if _measures(measured) in ALWAYS_ASKED:
        return True
    return not is_within(measured)(_middle(numbers))


def _asked(
    column: Column,
    measured: Measured,
    head: str,
    numbers: Sequence[Unitless],
    told: Sequence[Decimal],
) -> dict[Key, str]:
    """Ask once for the whole column, its odd parts named in the choices."""
    main, parts = _parts(numbers)
    offers = list(_offers(measured, main, parts, told))
    if not parts:
        offers = [
            _again(it, column.choices.get(column.key(MATTER), "")) for it in offers
        ]
    choices = [
        Choice(it.key, it.words, _makes(measured, it.units, numbers)) for it in offers
    ]
    places = [place for it in numbers for place in it.places]
    sentence = _sentence(column, measured, head, parts)
    taken = column.ask(MATTER, places, sentence, choices)
    return next((it.units for it in offers if it.key == taken), _all(numbers, ""))


def _sentence(
    column: Column, measured: Measured, head: str, parts: Sequence[Part]
) -> str:
    says = f"says {head}" if head else "states no unit"
    odd = listed(it.label for it in parts)
    far = f" {odd} lies far from the others and may be in another unit." if odd else ""
    return (
        f"{column.name} {says}; {measured.name} is kept in {measured.unit}. "
        f"In which unit do its numbers stand?{far}"
    )


@dataclass(frozen=True)
class _Offer:
    key: str
    words: str
    units: dict[Key, str]


def _offers(
    measured: Measured,
    main: Sequence[Unitless],
    parts: Sequence[Part],
    told: Sequence[Decimal],
) -> Iterator[_Offer]:
    middle = _middle(main)
    for unit in _likely(measured, middle, told):
        ways = [_ways(measured, unit, middle, part) for part in parts]
        for taken in product(*ways):
            units = {it.key: unit for it in main}
            for part, way in zip(parts, taken, strict=True):
                units |= dict.fromkeys(part.keys, way or unit)
            words = PART.join([unit, *map(_said, parts, taken)])
            yield _Offer(words, words, units)


def _again(offer: _Offer, taken: str) -> _Offer:
    """The offer under the key of an answer whose odd parts are there no more: they were written anew."""
    is_it = taken.partition(PART)[0] == offer.key
    return replace(offer, key=taken) if is_it else offer


def _said(part: Part, way: str) -> str:
    if way == LEAVE:
        return f"leave {part.label} out"
    return f"{part.label} in {way}" if way else f"{part.label} too"


def _units_for(measured: Measured) -> Iterator[str]:
    """The characteristic's own unit first."""
    yield measured.unit
    for unit in ALTERNATIVES[_measures(measured)]:
        if unit != measured.unit:
            yield unit


def _likely(measured: Measured, middle: Decimal, told: Sequence[Decimal]) -> list[str]:
    """The units that bring the numbers near those that state theirs, and into the plausible range; all where none does."""
    units = list(_units_for(measured))
    among = sorted(abs(it) for it in told if it)
    holds = is_within(measured)

    def fits(unit: str) -> bool:
        value = converted(Number.of(middle), unit, measured).value
        near = among[len(among) // 2] if among else value
        return holds(value) and near / APART <= value <= near * APART

    return [it for it in units if fits(it)] or units


def _ways(measured: Measured, unit: str, middle: Decimal, part: Part) -> list[str]:
    """What a part could be beside a column in `unit`: in a unit that brings it near the others, left out, in the same."""
    among = converted(Number.of(middle), unit, measured).value
    near = [
        it
        for it in _units_for(measured)
        if it != unit and _is_near(converted(Number.of(part.middle), it, measured).value, among)
    ]  # fmt: skip
    return [*near, LEAVE, ""]


def _is_near(value: Decimal, among: Decimal) -> bool:
    return among / NEAR <= value <= among * NEAR


def _makes(
    measured: Measured, units: Mapping[Key, str], numbers: Sequence[Unitless]
) -> str:
    """What a choice makes of the first numbers of each unit."""
    firsts = {units[it.key]: it.number for it in reversed(numbers)}
    return "; ".join(
        f"{with_unit(number, unit)} = {with_unit(converted(number, unit, measured), measured.unit)}"
        for unit, number in reversed(firsts.items())
        if unit not in {LEAVE, measured.unit}
    )


def _parts(numbers: Sequence[Unitless]) -> tuple[list[Unitless], list[Part]]:
    """The numbers around the median, and those far below and far above it; nought goes with any."""
    middle = _middle(numbers)
    if _has_no_size(middle):
        return list(numbers), []
    small = [it for it in numbers if 0 < abs(it.number.value) * APART < middle]
    large = [it for it in numbers if abs(it.number.value) > middle * APART]
    odd = {it.key for it in (*small, *large)}
    main = [it for it in numbers if it.key not in odd]
    return main, [_part(some) for some in (small, large) if some]


def _has_no_size(middle: Decimal) -> bool:
    return middle == 0


def _part(numbers: Sequence[Unitless]) -> Part:
    keys = frozenset(it.key for it in numbers)
    return Part(_label(numbers), keys, _middle(numbers))


def _label(numbers: Sequence[Unitless]) -> str:
    texts = list(dict.fromkeys(str(it.number) for it in numbers))
    if len(texts) <= MOST_NAMED:
        return listed(texts)
    ordered = sorted(numbers, key=_size)
    return f"{ordered[0].number} to {ordered[-1].number} ({len(texts)} numbers)"


def _size(it: Unitless) -> Decimal:
    return it.number.value


def _middle(numbers: Sequence[Unitless]) -> Decimal:
    """The median of the sizes of all cells, nought left aside; nought where there is nothing else."""
    sizes = sorted(
        (abs(it.number.value), len(it.places)) for it in numbers if it.number.value
    )
    half, passed = sum(count for _, count in sizes) / 2, 0
    for size, count in sizes:
        passed += count
        if passed >= half:
            return size
    return Decimal(0)
