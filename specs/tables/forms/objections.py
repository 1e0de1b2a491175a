"""What stands against a cell of a form, and what may be done about it: the rows go, the cells go, or another text is written."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from specs.tables.checked import Row
from specs.tables.saying import Choice

ROWS, CELLS, TAKE = "rows", "cells", "take"
LEAVE_ROWS = Choice(ROWS, "Leave these rows out")
LEAVE_CELLS = Choice(CELLS, "Leave these cells empty")


@dataclass(frozen=True)
class Objection:
    """One cell that cannot be taken as it stands, or not without being asked about.

    `key` is the form's column. A choice other than to leave the rows or the cells sets
    the value of `sets` for it, or the choice itself, in this row.
    """

    row: int
    key: str
    sentence: str
    matter: str = "does not fit"
    choices: tuple[Choice, ...] = (LEAVE_ROWS,)
    proposed: str = ""
    is_refusal: bool = True
    takes_text: bool = True
    sets: Mapping[str, str] = field(default_factory=dict)

    @property
    def level(self) -> str:
        """Single cells are refused; what is asked of the column as a whole sets its value."""
        return "cell" if self.is_refusal else "column"


Objects = Callable[[Sequence[Row]], Sequence[Objection]]


def no_objection(_rows: Sequence[Row]) -> Sequence[Objection]:
    """Nothing more is held against the rows."""
    return ()
