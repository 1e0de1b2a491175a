"""What the table of one kind asks: its columns, what each is read as, what may stand in it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Reads(StrEnum):
    """What the cells of a column are read as."""

    TEXT = "text"
    NUMBER = "number"
    WHOLE = "whole number"
    DAY = "day"
    MOMENT = "day and time"
    CHOICE = "choice"
    LIMITS = "limits"
    NAME = "name"  # of something that is kept here
    FIGURE = "figure"  # of a method: a number, one of its words, or an expression


@dataclass(frozen=True)
class FormColumn:
    """One column of a form; `heading` is what the template writes, `also` what others write.

    `of` names the list of what is kept that a cell of it must be found in. `means` leads
    from another word to a choice. A blank cell of a column that fills down stands for the
    one above it.
    """

    key: str
    heading: str
    unit: str = ""
    note: str = ""
    choices: tuple[str, ...] = ()
    required: bool = False
    reads: Reads = Reads.TEXT
    of: str = ""
    also: tuple[str, ...] = ()
    means: Mapping[str, str] = field(default_factory=dict)
    fills_down: bool = False
    is_repeated: bool = False  # several columns of a table can be this one
    is_ahead: bool = False  # a day that may lie in the future


@dataclass(frozen=True)
class Form:
    """What one kind of table asks. `anchor` is the column that questions about whole rows stand at."""

    kind: str
    title: str
    anchor: str
    columns: tuple[FormColumn, ...]

    def column(self, key: str) -> FormColumn:
        """One column by its key; raises KeyError."""
        return {it.key: it for it in self.columns}[key]
