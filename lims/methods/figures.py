"""One figure of the method book, and the bundle that a method's edition states for a characteristic."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from enum import StrEnum
from typing import Any, Self


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

    @property
    def told(self) -> dict[str, str]:
        """The figure as a plain object, to be stored."""
        return asdict(self)

    @property
    def place(self) -> tuple[str, str, str, str]:
        """What no two figures of a revision share."""
        return self.characteristic, self.what, self.level_from, self.level_to
