"""One figure of the method book: what it says, in which words, over which levels."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Any, Self

from specs.judging.constants import EXACT, PRINTED
from specs.judging.repeats import ROUTES, SCHOOLS


class What(StrEnum):
    """What a figure says."""

    DETERMINATIONS = "determinations a result"  # a whole number
    COMBINING = "how they combine"  # mean, the worse, two of three
    STEP = "reporting step"
    BETTER = "direction"  # lower, higher, nearer nought, inside the limits
    PLAUSIBLE_FROM = "plausible from"
    PLAUSIBLE_TO = "plausible to"
    SCHOOL = "repeat rule"  # ISO 4259 or ISO 5725-6
    ROUTE = "route"  # of ISO 5725-6
    CONSTANTS = "constants"  # exact or printed
    CONFIRM = "after a rejected set"  # second fill, or nothing
    DETERMINABILITY = "determinability"
    REPEATABILITY = "repeatability"
    REPRODUCIBILITY = "reproducibility"


@dataclass(frozen=True)
class Figure:
    """One figure with its source and standing; a precision holds between two levels."""

    characteristic: str  # its code
    what: str
    value: str
    source: str
    standing: str
    level_from: str = ""
    level_to: str = ""

    @classmethod
    def of(cls, told: Mapping[str, Any]) -> Self:
        """The figure of a plain object, as it is stored."""
        return cls(**told)

    @classmethod
    def within(cls, told: Mapping[str, Any]) -> Self:
        """The figure of a plain object that tells more besides, such as whose edition it is of."""
        return cls(**{name: told[name] for name in cls.__match_args__ if name in told})

    @property
    def told(self) -> dict[str, str]:
        """The figure as a plain object, to be stored."""
        return asdict(self)

    @property
    def is_precision(self) -> bool:
        return self.what in PRECISIONS

    @property
    def place(self) -> tuple[str, str, str, str]:
        """What no two figures of a revision share."""
        return self.characteristic, self.what, self.level_from, self.level_to


PRECISIONS = (What.DETERMINABILITY, What.REPEATABILITY, What.REPRODUCIBILITY)
MEAN, MEDIAN = "mean", "median"
THE_WORSE, TWO_OF_THREE, EACH_STATED = "the worse", "two of three", "each stated"
SECOND_FILL = "second fill"

# The words that a figure may say where it says no number.
WORDS: dict[str, tuple[str, ...]] = {
    What.COMBINING: (MEAN, MEDIAN, THE_WORSE, TWO_OF_THREE, EACH_STATED),
    What.BETTER: ("lower", "higher", "nearer nought", "inside the limits"),
    What.SCHOOL: SCHOOLS,
    What.ROUTE: ROUTES,
    What.CONSTANTS: (EXACT, PRINTED),
    What.CONFIRM: (SECOND_FILL, "nothing"),
}


def in_order(figures: Iterable[Figure], codes: Sequence[str]) -> list[Figure]:
    """The figures as a book has them: by characteristic, by what they say, by level."""
    whats = [str(what) for what in What]
    return sorted(
        figures,
        key=lambda it: (
            codes.index(it.characteristic)
            if it.characteristic in codes
            else len(codes),
            it.characteristic,
            whats.index(it.what) if it.what in whats else len(whats),
            Decimal(it.level_from) if it.level_from else Decimal("-Infinity"),
        ),
    )
