"""Which letters of a grease symbol the stated requirements support, and which nothing supports.

It says what a specification demands, not what a grease is: use, oil and solid lubricant
are matters of composition and no test result stands for them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from specs.judging.grades import Aim, aimed_at
from specs.judging.letters import (
    DIN,
    DIN_LOWER,
    DIN_UPPER,
    DIN_WATER,
    DIN_WATER_AT,
    EP,
    FROM_MEMORY,
    ISO,
    ISO_LOWER,
    ISO_UPPER,
    ISO_WATER,
    PUBLISHED,
    Heat,
)
from specs.judging.stated import Stated

# all from memory
HIGHEST_FLOW_PRESSURE = Decimal(1400)  # mbar, at the lower temperature
SHORTEST_LIFE = Decimal(100)  # hours, at the upper temperature
BETTER_WATER = Decimal(1)  # the worst rating of the better letter of a pair
BETTER_RUST = Decimal(1)  # the worst rating that keeps rust away

NOTHING = "no requirement states it"

# words of a characteristic's code
_WORKED = "worked-penetration"
_LOADS = ("four-ball-weld", "load-wear-index")
_FLOW = ("flow-pressure",)
_LIFE = ("fe9",)
_WATER = ("water-resistance",)
_WASHOUT = ("water-washout",)
_RUST_FINDING, _RUST_RATING = ("rust",), ("emcor",)
_SALT = ("salt-water", "sea-water")


@dataclass(frozen=True)
class Support:
    """One place of a symbol and the signs that the requirements support there.

    Several signs where the requirements do not decide between them, none where nothing
    supports any; `by` names the requirement, or says what is missing.
    """

    standard: str
    place: str
    signs: tuple[str, ...]
    by: str
    standing: str = FROM_MEMORY
    note: str = ""


@dataclass(frozen=True)
class Supported:
    """The NLGI number aimed at, and every place of both symbols in its order."""

    aim: Aim
    letters: tuple[Support, ...]

    def of(self, standard: str) -> tuple[Support, ...]:
        """The places of one standard's symbol."""
        return tuple(each for each in self.letters if each.standard == standard)


def supported(requirements: Iterable[Stated]) -> Supported:
    """What requirements of the kind limit support of DIN 51502 and ISO 6743-9."""
    stated = tuple(requirements)
    aim = _aim(stated)
    grade = () if aim.grade is None else (aim.grade,)
    cold, heat = _coldest(stated), _hottest(stated)
    return Supported(
        aim,
        (
            Support(DIN, "use", (), "no test stands for the use", PUBLISHED),
            _load(DIN, stated),
            Support(DIN, "NLGI number", grade, aim.says, PUBLISHED),
            _din_upper(heat, stated),
            Support(DIN, "lower temperature", _furthest(DIN_LOWER, cold), cold.by),
            Support(ISO, "lower temperature", _furthest(ISO_LOWER, cold), cold.by),
            Support(ISO, "upper temperature", _furthest(ISO_UPPER, heat), heat.by),
            _iso_water(stated),
            _load(ISO, stated),
            Support(ISO, "NLGI number", grade, aim.says, PUBLISHED),
        ),
    )


def _aim(stated: Sequence[Stated]) -> Aim:
    worked = next((each for each in stated if each.characteristic == _WORKED), None)
    if worked is None:
        return Aim(None, "no limits of worked penetration are stated")
    if worked.least is None or worked.most is None:
        return Aim(None, f"{worked}; a number needs both ends")
    return aimed_at(worked.least, worked.most)


@dataclass(frozen=True)
class _Reached:
    """A temperature that a requirement reaches, or why there is none."""

    degrees: int | None
    by: str


def _coldest(stated: Sequence[Stated]) -> _Reached:
    """The lowest temperature at which a flow pressure is low enough."""
    reached = [
        (each.degrees, str(each))
        for each in _of(stated, _FLOW)
        if each.degrees is not None
        and each.most is not None
        and each.most <= HIGHEST_FLOW_PRESSURE
    ]
    missing = (
        f"{NOTHING}: it takes a flow pressure of at most {HIGHEST_FLOW_PRESSURE} mbar"
    )
    return _Reached(*min(reached, default=(None, missing)))


def _hottest(stated: Sequence[Stated]) -> _Reached:
    """The highest temperature at which a bearing life is long enough."""
    reached = [
        (each.degrees, str(each))
        for each in _of(stated, _LIFE)
        if each.degrees is not None
        and each.least is not None
        and each.least >= SHORTEST_LIFE
    ]
    missing = (
        f"{NOTHING}: it takes a bearing life (FE9) of at least {SHORTEST_LIFE} h at "
        "the temperature; a dropping point does not stand for it"
    )
    return _Reached(*max(reached, default=(None, missing)))


def _furthest(ends: Mapping[str, Heat], reached: _Reached) -> tuple[str, ...]:
    """The letters of the furthest temperature that is reached."""
    if reached.degrees is None:
        return ()
    within = {
        letter: heat
        for letter, heat in ends.items()
        if heat.lies_within(reached.degrees)
    }
    best = max(within.values(), key=Heat.reach, default=None)
    return tuple(letter for letter, heat in within.items() if heat == best)


def _load(standard: str, stated: Sequence[Stated]) -> Support:
    place = "additives" if standard == DIN else "load"
    found = [each for each in _of(stated, _LOADS) if each.least is not None]
    if found:
        signs = EP if standard == DIN else "B"
        note = "how much it takes stands in the laboratory's own copy of the standard"
        return Support(standard, place, (signs,), str(found[0]), note=note)
    why = f"{NOTHING}: it takes a least weld load or load-wear index"
    return Support(standard, place, () if standard == DIN else ("A",), why)


def _din_upper(heat: _Reached, stated: Sequence[Stated]) -> Support:
    """The letter that tells upper temperature and water resistance at once."""
    place = "upper temperature and water"
    letters = _furthest(DIN_UPPER, heat)
    if len(letters) < 2:
        return Support(DIN, place, letters, heat.by)
    better, worse = letters
    note, at = DIN_WATER[better].note, DIN_WATER_AT[better]
    for each in _of(stated, _WATER):
        if each.most is not None and each.degrees == at:
            letter = better if each.most <= BETTER_WATER else worse
            return Support(DIN, place, (letter,), f"{heat.by}; {each}", note=note)
    by = f"{heat.by}; no water rating at {at} °C decides between the two"
    return Support(DIN, place, letters, by, note=note)


def _iso_water(stated: Sequence[Stated]) -> Support:
    """The letter of surroundings and rust; what nothing states counts as not demanded."""
    wash = [each for each in _of(stated, _WASHOUT) if each.most is not None]
    damp = [each for each in _of(stated, _WATER) if _at_most(each, BETTER_WATER)]
    rust = _of(stated, _RUST_FINDING) + [
        each for each in _of(stated, _RUST_RATING) if _at_most(each, BETTER_RUST)
    ]
    salt = [each for each in rust if each.is_of(_SALT)]
    surroundings = "H" if wash else "M" if damp else "L"
    protection = "H" if salt else "M" if rust else "L"
    letter = next(
        key for key, it in ISO_WATER.items() if it == (surroundings, protection)
    )
    named = [str(each[0]) for each in (wash or damp, salt or rust) if each]
    by = "; ".join(named) or f"{NOTHING}, so nothing is demanded"
    return Support(ISO, "water and rust", (letter,), by)


def _of(stated: Sequence[Stated], words: Sequence[str]) -> list[Stated]:
    return [each for each in stated if each.is_of(words)]


def _at_most(stated: Stated, most: Decimal) -> bool:
    return stated.most is not None and stated.most <= most
