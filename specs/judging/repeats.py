"""When repeated results agree, how many more are asked for, and what is then reported.

Two schools: ISO 4259 sets the result farthest from the others aside, ISO 5725-6 widens
the critical range and takes the median in the end. A method's edition names one; the
other is never computed beside it. In neither does the order of the results matter.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from specs.judging.constants import EXACT, Constants, constants_of
from specs.judging.rounding import mean
from specs.numbers import EXACT as DIGITS_28
from specs.numbers import Refused, shortened, to_decimal

ISO_4259, ISO_5725_6 = "ISO 4259", "ISO 5725-6"
SCHOOLS = (ISO_4259, ISO_5725_6)

TWO_MORE = "two more"
ONE_MORE = "one more"
ONE_THEN_FOURTH = "one more, then a fourth"
ROUTES = (TWO_MORE, ONE_MORE, ONE_THEN_FOURTH)

REPORT: Literal["report"] = "report"
TEST_AGAIN: Literal["test again"] = "test again"

_MANY_SET_ASIDE, _OF_SO_MANY = 2, 20  # ISO 4259, from memory
_COUNTS = {1: "one more is", 2: "two more are"}


class RepeatRefused(Refused):
    """Results that no repeat rule can be applied to."""


@dataclass(frozen=True)
class Repeated:
    """What a repeat rule makes of the results so far.

    value      exact, None while it is to be tested again
    set_aside  places in the results given, only where something is reported
    more       how many further results are asked for
    says       the working, one sentence with rounded numbers
    """

    outcome: Literal["report", "test again"]
    value: Fraction | None
    statistic: Literal["mean", "median", ""]
    set_aside: tuple[int, ...]
    more: int
    says: str


def repeat(
    school: str,
    results: Sequence[Decimal | Fraction],
    r: Decimal,
    *,
    route: str = "",
    constants: str = EXACT,
) -> Repeated:
    """What to report from results of one laboratory, or how many more to make.

    `r` is the repeatability at the level of the results, in their unit. `route` says
    how ISO 5725-6 goes on when two results disagree; ISO 4259 knows no routes. One
    result, and two within r, are reported. The arithmetic is exact. Raises
    RepeatRefused without results, for an r that is not above zero, for an unknown
    school or route, and for a missing route where it decides.
    """
    if school not in SCHOOLS:
        raise RepeatRefused(
            f"“{school}” is no repeat rule: name {ISO_4259} or {ISO_5725_6}."
        )
    if route not in ("", *ROUTES):
        raise RepeatRefused(f"“{route}” is no route: name one of {_routes()}.")
    if not results:
        raise RepeatRefused("There is no result yet: record one first.")
    if not r.is_finite() or r <= 0:
        raise RepeatRefused(
            f"A repeatability of {r} allows no comparison: state one above zero."
        )
    used = constants_of(constants)
    exact = [Fraction(result) for result in results]
    if len(exact) == 1:
        return _reported(mean(exact), "mean", "one result, nothing to compare it with")
    if school == ISO_4259:
        return _Divergence(exact, Fraction(r)).judged()
    return _Ranges(exact, Fraction(r), route, used).judged()


def critical_range_factor(n: int, constants: str = EXACT) -> Decimal:
    """f(n) of ISO 5725-6: the 95 % critical range of n results is f(n) σr."""
    return constants_of(constants).range_95(n)


class _Divergence:
    """ISO 4259: the farthest is set aside while it lies too far from the others.

    The limit for the distance of one result from the mean of the others, k in all, is
    r √(k / (2(k−1))): r for two, 0.866 r for three.
    """

    def __init__(self, results: list[Fraction], r: Fraction) -> None:
        self.results, self.r = results, r
        self.left = list(range(len(results)))
        self.aside: list[int] = []
        self.steps: list[str] = []

    def judged(self) -> Repeated:
        while True:
            distance, farthest = self._farthest()
            count = len(self.left)
            limit_squared = self.r**2 * Fraction(count, 2 * (count - 1))
            if distance**2 <= limit_squared:
                return self._reported(distance, limit_squared)
            found, limit = _apart(distance, limit_squared)
            if len({self.results[place] for place in farthest}) > 1:
                return self._again(found, limit, farthest)
            self._set_aside(farthest[-1], found, limit)

    def _farthest(self) -> tuple[Fraction, list[int]]:
        """The greatest distance of a result from the mean of the others, and whose."""
        total = sum(self.results[place] for place in self.left)
        others = len(self.left) - 1
        distances = {
            place: abs(self.results[place] - (total - self.results[place]) / others)
            for place in self.left
        }
        greatest = max(distances.values())
        return greatest, [place for place in self.left if distances[place] == greatest]

    def _set_aside(self, place: int, found: str, limit: str) -> None:
        self.left.remove(place)
        self.aside.append(place)
        self.steps.append(
            f"result {place + 1} differs by {found} from the mean of the others, "
            f"more than {limit}"
        )

    def _reported(self, distance: Fraction, limit_squared: Fraction) -> Repeated:
        values = [self.results[place] for place in self.left]
        if self.aside:
            says = f"{' and '.join(self.steps)} ({self._rule}): set aside; mean of the other {len(values)}"
        else:
            found, limit = _apart(distance, limit_squared)
            says = f"{_differing(len(values), found, limit)} ({self._rule}): mean of {len(values)}"
        if len(self.aside) > _MANY_SET_ASIDE and len(self.results) <= _OF_SO_MANY:
            says += f"; with {len(self.aside)} set aside, suspect the procedure or the sample"
        return _reported(mean(values), "mean", says, tuple(sorted(self.aside)))

    def _again(self, found: str, limit: str, farthest: list[int]) -> Repeated:
        """Two results, or two ends equally far: the rule does not choose between them."""
        these = f"results {' and '.join(str(place + 1) for place in farthest)}"
        if len(self.left) == 2:
            why = f"{these} differ by {found}, more than {limit}"
        else:
            why = (
                f"{these} lie equally far from the mean of the others, by {found}, "
                f"more than {limit}, so that none can be set aside"
            )
        return _again(1, f"{'; '.join([*self.steps, why])} ({self._rule})")

    @property
    def _rule(self) -> str:
        return f"{ISO_4259}, r = {shortened(self.r, 4)}"


class _Ranges:
    """ISO 5725-6: the range of n results against f(n) σr, in the end the median."""

    def __init__(
        self, results: list[Fraction], r: Fraction, route: str, constants: Constants
    ) -> None:
        self.results, self.r = sorted(results), r
        self.route, self.constants = route, constants
        self.count = len(results)
        self.range = self.results[-1] - self.results[0]

    def judged(self) -> Repeated:
        if self.range <= self.r:
            return self._mean(self.r)
        if self.count < 4 and not self.route:
            raise RepeatRefused(
                f"Results that differ by more than r = {shortened(self.r, 4)} need a "
                f"route by {ISO_5725_6}: name one of {_routes()}."
            )
        if self.count == 2:
            return self._again(2 if self.route == TWO_MORE else 1, self.r)
        if self.count == 3 and self.route == TWO_MORE:
            return self._again(1, self.r)
        limit = self._critical_range()
        if self.range <= limit:
            return self._mean(limit)
        if self.count == 3 and self.route == ONE_THEN_FOURTH:
            return self._again(1, limit)
        return _reported(
            _median(self.results), "median", f"{self._above(limit)}: median"
        )

    def _critical_range(self) -> Fraction:
        """f(n) r / (1.96 √2), which is r itself for two results."""
        factor = Fraction(self.constants.range_95(self.count))
        return factor * self.r / Fraction(self.constants.difference_95)

    def _mean(self, limit: Fraction) -> Repeated:
        found, allowed = _apart(self.range, limit**2)
        says = f"{self._spread} {found}, not more than {allowed} ({self._rule}): mean"
        return _reported(mean(self.results), "mean", says)

    def _again(self, more: int, limit: Fraction) -> Repeated:
        return _again(more, self._above(limit))

    def _above(self, limit: Fraction) -> str:
        found, allowed = _apart(self.range, limit**2)
        return f"{self._spread} {found}, more than {allowed} ({self._rule})"

    @property
    def _spread(self) -> str:
        if self.count == 2:
            return "the two results differ by"
        return f"range of {self.count} results"

    @property
    def _rule(self) -> str:
        route = f", {self.route}" if self.route else ""
        return (
            f"{ISO_5725_6}{route}; r = {shortened(self.r, 4)}, "
            f"{self.constants.name} constants"
        )


def _reported(
    value: Fraction,
    statistic: Literal["mean", "median"],
    says: str,
    set_aside: tuple[int, ...] = (),
) -> Repeated:
    return Repeated(REPORT, value, statistic, set_aside, 0, says)


def _again(more: int, why: str) -> Repeated:
    return Repeated(TEST_AGAIN, None, "", (), more, f"{why}: {_COUNTS[more]} asked for")


def _differing(count: int, found: str, limit: str) -> str:
    if count == 2:
        return f"the two results differ by {found}, not more than {limit}"
    return f"no result differs by more than {limit} from the mean of the others"


def _apart(found: Fraction, limit_squared: Fraction) -> tuple[str, str]:
    """Both as text, with so many decimals that unlike numbers look unlike."""
    limit = to_decimal(limit_squared).sqrt(DIGITS_28)
    for places in range(2, 10):
        texts = shortened(found, places), shortened(limit, places)
        if texts[0] != texts[1]:
            break
    return texts


def _median(ordered: list[Fraction]) -> Fraction:
    middle = len(ordered) // 2
    if len(ordered) % 2:
        return ordered[middle]
    return mean(ordered[middle - 1 : middle + 1])


def _routes() -> str:
    return "; ".join(ROUTES)
