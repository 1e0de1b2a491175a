"""Two rust ratings 0 to 5 of a pair of bearings with water (ISO 11007, ASTM D6138).

Both ratings are the result ("0/1"); a limit is held against the worse. Ratings are an
order and are never averaged. When the two disagree by more than the method's precision
it asks for two further bearings; that precision could not be read, so the disagreement
allowed is a house figure.
"""

from specs.methods.circumstances import APPARATUS, ASKED, conditions, window_bars
from specs.methods.outcome import (
    Bar,
    Condition,
    Given,
    Outcome,
    Parameter,
    Parameters,
    Procedure,
    Slot,
    setting,
    unanswered,
)
from specs.methods.readings import CAUTION
from specs.numbers import Number

SCALE = ("0", "1", "2", "3", "4", "5")  # 0 no corrosion
JOINT = "/"
WATERS = ("distilled water", "salt water", "synthetic sea water")
WATER = Parameter("water", "Water", WATERS[0], WATERS)
APART = Parameter(
    "apart", "House limit of the disagreement, ratings", "1", SCALE[:-1], house=True
)
USED = Condition("water", "Water used", "choice", choices=WATERS)
SLOTS = tuple(
    Slot(
        f"bearing_{place}",
        f"Bearing {place}{', where the first two disagree' if place > 2 else ''}",
        kind="rating",
        choices=SCALE,
        optional=place > 2,
    )
    for place in range(1, 5)
)


def worse(mark: str) -> str:
    """The worse rating of "0/1", by which it is judged; any other text as it stands."""
    marks = mark.split(JOINT)
    return max(marks, key=SCALE.index) if set(marks) <= set(SCALE) else mark


def rating(given: Given, key: str) -> str:
    """The rating in a slot as text, also where it reads as a number."""
    found = given.readings.get(key)
    return found.canonical if isinstance(found, Number) else given.mark(key)


def slots(_parameters: Parameters) -> tuple[Slot, ...]:
    """Two bearings, and two further ones where the first two disagree."""
    return SLOTS


def all_conditions(parameters: Parameters) -> tuple[Condition, ...]:
    """The water that was used, and what the settings ask for."""
    return (USED, *conditions(parameters))


def carry_out(given: Given) -> Outcome:
    """Both ratings; all four, where two further bearings were run."""
    missing = unanswered(given, all_conditions(given.parameters))
    marks = [rating(given, slot.key) for slot in SLOTS]
    strange = tuple(
        f"“{mark}” is no rating: choose 0 to 5."
        for mark in marks
        if mark and mark not in SCALE
    )
    bars = (*_water_bars(given), *window_bars(given))
    if strange or not all(marks[:2]):
        says = f"{sum(mark in SCALE for mark in marks[:2])} of 2 bearings"
        asks = (*missing, *strange)
        return Outcome(complete=False, accepted=True, bars=bars, asks=asks, says=says)
    further = _further(marks, int(setting(given.parameters, APART)))
    rated = [mark for mark in marks if mark]
    mark = JOINT.join(rated)
    return Outcome(
        complete=not missing and not further,
        accepted=True,
        mark=mark,
        bars=bars,
        asks=(*further, *missing),
        says=f"judged by the worse, {worse(mark)}",
        parts={f"bearing_{it}": each for it, each in enumerate(marks, 1) if each},
    )


def _further(marks: list[str], limit: int) -> tuple[str, ...]:
    """What to do while the first two disagree and two further ones are not rated."""
    apart = abs(SCALE.index(marks[0]) - SCALE.index(marks[1]))
    further = sum(mark != "" for mark in marks[2:])
    if further == 2 or (apart <= limit and not further):
        return ()
    if further:
        return ("Two further bearings belong together: rate the other one too.",)
    ratings = f"the ratings {marks[0]} and {marks[1]} are {apart} apart"
    allowed = f"the house allows {limit}; the method's own figure was not found"
    return (f"Run two further bearings: {ratings}, {allowed}.",)


def _water_bars(given: Given) -> tuple[Bar, ...]:
    used, wanted = given.choice(USED), setting(given.parameters, WATER)
    if used is None or used == wanted:
        return ()
    return (
        Bar(
            "water",
            f"Stored, cannot count: {used} was used, this is the test with {wanted}.",
            "Correct the water, or test with the right one.",
        ),
    )


EMCOR = Procedure(
    name="pair of rated bearings",
    kind="rating",
    unit="",
    slots=slots,
    conditions=all_conditions,
    carry_out=carry_out,
    caution=CAUTION,
    parameters=(WATER, APART, ASKED, APPARATUS),
    scale=SCALE,
    judged_as=worse,
)
