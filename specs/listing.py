"""What is proved and what is not: every calculation with its source and how many cases it has."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from specs.calculations import CALCULATIONS
from specs.proving import STANDINGS, Result

UNPROVED = "unproved"


@dataclass(frozen=True)
class Listed:
    """A calculation, the source of its formula, and the cases that were run for it."""

    name: str
    source: str
    cases: int
    failed: int
    standings: tuple[tuple[str, int], ...] = ()

    @property
    def is_proved(self) -> bool:
        """Whether it has a case at all and none of them failed."""
        return self.cases > 0 and self.failed == 0

    @property
    def words(self) -> str:
        """`12 cases`, `unproved`, or how many failed."""
        if not self.cases:
            return UNPROVED
        count = f"{self.cases} case{'' if self.cases == 1 else 's'}"
        return f"{count}, {self.failed} failed" if self.failed else count


def listed(results: Sequence[Result]) -> list[Listed]:
    """Every calculation of the product, those without a case too, in their order."""
    of: Mapping[str, list[Result]] = {name: [] for name in CALCULATIONS}
    for result in results:
        if result.calculation in of:
            of[result.calculation].append(result)
    return [_one(name, found) for name, found in of.items()]


def _one(name: str, results: list[Result]) -> Listed:
    counted = Counter(result.standing for result in results)
    return Listed(
        name=name,
        source=CALCULATIONS[name].source,
        cases=len(results),
        failed=sum(not result.passed for result in results),
        standings=tuple((it, counted[it]) for it in STANDINGS if counted[it]),
    )
