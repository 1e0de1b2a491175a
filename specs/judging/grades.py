"""NLGI numbers by worked penetration (ASTM D217, ISO 6743-99), the gaps between, and the number that limits aim at."""

from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from specs.numbers import Refused

# softest first: number, lowest and highest worked penetration in 0.1 mm
NLGI = (
    ("000", 445, 475),
    ("00", 400, 430),
    ("0", 355, 385),
    ("1", 310, 340),
    ("2", 265, 295),
    ("3", 220, 250),
    ("4", 175, 205),
    ("5", 130, 160),
    ("6", 85, 115),
)


class GradeRefused(Refused):
    """A penetration that is not the reported whole number."""


@dataclass(frozen=True)
class Grade:
    """An NLGI number, or the two numbers (softer first) between which a value lies."""

    grade: str | None = None
    between: tuple[str, str] | None = None


def nlgi(reported: Decimal | int) -> Grade:
    """The NLGI number of a reported worked penetration in whole 0.1 mm.

    A value in a gap belongs to no number and lies between two; outside 85 to 475
    both answers are None. Raises GradeRefused for a number that is not whole.
    """
    worked = Decimal(reported)
    if not worked.is_finite() or worked != worked.to_integral_value():
        raise GradeRefused(
            f"{reported} is not the reported whole number: round it once before."
        )
    for number, lowest, highest in NLGI:
        if lowest <= worked <= highest:
            return Grade(grade=number)
    for (softer, least, _), (firmer, _, most) in pairwise(NLGI):
        if most < worked < least:
            return Grade(between=(softer, firmer))
    return Grade()


@dataclass(frozen=True)
class Aim:
    """The NLGI number that limits of worked penetration aim at, if one, and why."""

    grade: str | None
    says: str


def aimed_at(lower: Decimal, upper: Decimal) -> Aim:
    """The NLGI number whose range holds both limits of worked penetration in 0.1 mm.

    Limits that reach over several numbers or into a gap aim at none.
    """
    limits = f"{lower} to {upper}"
    if lower > upper:
        return Aim(None, f"{limits} is no range: its lower end comes first")
    for number, lowest, highest in NLGI:
        if lowest <= lower and upper <= highest:
            return Aim(number, f"{limits} lies in NLGI {number}, {lowest} to {highest}")
    touched = [
        number
        for number, lowest, highest in NLGI
        if lower <= highest and lowest <= upper
    ]
    reach = f"it reaches into NLGI {', '.join(touched)}" if touched else "it meets none"
    return Aim(None, f"{limits} is the range of no NLGI number: {reach}")
