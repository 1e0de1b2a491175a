"""The constants of precision, each named once: exact, or as a standard prints it.

They change the third or fourth digit of a result, so a result stores which were used.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from decimal import Decimal
from typing import ClassVar

from specs.judging.quantiles import TEN_DIGITS, normal, normal_range
from specs.numbers import Refused

EXACT, PRINTED = "exact", "printed"

PROBABILITY = Decimal("0.95")
LARGEST_RANGE = 100  # where the table of ISO 5725-6 ends

_RANGES_PRINTED = {
    2: Decimal("2.8"),
    3: Decimal("3.3"),
    4: Decimal("3.6"),
    5: Decimal("3.9"),
    6: Decimal("4.0"),
    7: Decimal("4.2"),
    8: Decimal("4.3"),
    9: Decimal("4.4"),
    10: Decimal("4.5"),
}


class ConstantsRefused(Refused):
    """A set of constants that is not kept, or a place outside a table."""


class Constants(ABC):
    """One set of constants.

    difference_95      1.96 √2: the 95 % limit of the difference of two results, in
                       standard deviations, and so r/σr and R/σR
    mean_range_2       2/√π: the mean range of two results, in standard deviations
    retested_three_of_R  how far three results may span in step 3 of ASTM D3244
    """

    name: ClassVar[str]
    difference_95: Decimal
    mean_range_2: Decimal

    # The standard states 1.2 itself as its rule, so both sets carry it; it comes from
    # f(3)/f(2) = 1.196.
    retested_three_of_R: ClassVar[Decimal] = Decimal("1.2")

    @abstractmethod
    def range_95(self, count: int) -> Decimal:
        """f(n): the 95 % limit of the range of n results, in standard deviations.

        ISO 5725-6, critical range. Raises ConstantsRefused for a count below 2 or
        above 100.
        """

    @abstractmethod
    def one_sided_of_R(self, confidence: Decimal) -> Decimal:
        """z/(1.96 √2): how many R a single result lies from a limit with confidence.

        ISO 4259. The confidence is one-sided.
        """


class Exact(Constants):
    """Every constant to ten digits."""

    name = EXACT
    difference_95 = Decimal("2.771807649")
    mean_range_2 = Decimal("1.128379167")

    def range_95(self, count: int) -> Decimal:
        _check_count(count)
        return normal_range(PROBABILITY, count)

    def one_sided_of_R(self, confidence: Decimal) -> Decimal:
        return TEN_DIGITS.divide(normal(confidence), self.difference_95)


class Printed(Constants):
    """Every constant as the standards print it, with the digits they print."""

    name = PRINTED
    difference_95 = Decimal("2.8")
    mean_range_2 = Decimal("1.128")

    def range_95(self, count: int) -> Decimal:
        """To one decimal: the table of ISO 5725-6, whose rows above 10 are rounded here."""
        _check_count(count)
        printed = _RANGES_PRINTED.get(count)
        if printed is None:
            return normal_range(PROBABILITY, count).quantize(Decimal("0.1"))
        return printed

    def one_sided_of_R(self, confidence: Decimal) -> Decimal:
        """0.59 at 95 %, as ISO 4259 prints it; it prints no other, so these are exact.

        The 2.8 of ISO 5725 is not its divisor: at 99 % it would give 0.83 for 0.84.
        """
        if confidence == PROBABILITY:
            return Decimal("0.59")
        return _EXACT.one_sided_of_R(confidence)


_EXACT = Exact()
SETS: Mapping[str, Constants] = {EXACT: _EXACT, PRINTED: Printed()}


def constants_of(name: str) -> Constants:
    """The set of that name. Raises ConstantsRefused when there is none."""
    try:
        return SETS[name]
    except KeyError:
        raise ConstantsRefused(
            f"“{name}” names no constants: name {EXACT} or {PRINTED}."
        ) from None


def _check_count(count: int) -> None:
    if count < 2:
        raise ConstantsRefused(
            f"A critical range of {count} results makes no sense: it needs two or more."
        )
    if count > LARGEST_RANGE:
        raise ConstantsRefused(
            f"There is no critical range for {count} results: the table ends at "
            f"{LARGEST_RANGE}."
        )
