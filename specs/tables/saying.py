"""What becomes of each cell, and what has to be asked before anything is taken."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Fate(StrEnum):
    """What becomes of a cell."""

    TAKEN = "taken"
    CONVERTED = "converted"
    ASKS = "needs an answer"
    REFUSED = "refused"
    LEFT_OUT = "left out"  # a title, a head, a summary row, a column nobody wants
    EMPTY = "empty"


@dataclass(frozen=True)
class Said:
    """What becomes of one cell. Equal cells of a column share one of these."""

    fate: Fate
    value: str = ""  # in canonical form: 280, >300, 2025-12-03, 1b
    rule: str = ""  # how it was read: "5.5 psi = 37.9 kPa"
    why: str = ""  # what is wrong, and what to write instead
    question: str = ""  # the key of the question that it waits for


@dataclass(frozen=True)
class Choice:
    """One answer that a question takes; `makes` shows what it makes of its first cells."""

    key: str
    words: str
    makes: str = ""


@dataclass(frozen=True)
class Question:
    """What is asked once of a column: of all the cells that raise it.

    `level` is "column" for what holds of the column as a whole (its unit, the order of day
    and month) and "cell" for single cells (a letter among figures, limits between results).
    A refused cell raises one too: leave it out, or write something else instead.
    """

    key: str  # column and matter: "G/unit", "D/mean"
    column: str  # its letter
    matter: str  # one word or two: unit, date order, blank inside
    level: str
    sentence: str
    choices: tuple[Choice, ...]
    cells: tuple[str, ...]  # addresses, as many as are shown
    count: int  # how many cells raise it
    proposed: str = ""  # the key of the choice that the sheet itself speaks for
    is_refusal: bool = False
    takes_text: bool = False  # a cell of it may be written anew


@dataclass(frozen=True)
class Answers:
    """What a person said: choices by question, and texts written instead of cells."""

    choices: Mapping[str, str] = field(default_factory=dict)  # key -> choice
    instead: Mapping[str, str] = field(default_factory=dict)  # address -> text


class RowRole(StrEnum):
    """What a row of the sheet is."""

    TITLE = "title"
    HEAD = "head"
    UNITS = "units"
    DATA = "data"
    CONTINUATION = "continuation"  # belongs to the row above
    DUPLICATE = "duplicate"
    SUMMARY = "summary"
    HELD = "held"  # lacks a day or a batch: nothing of it is taken
    BLANK = "blank"


@dataclass(frozen=True)
class Value:
    """One result to be taken: with the cells that it was read from, as they stood."""

    characteristic: str
    value: str  # canonical; a mark; words
    cells: tuple[str, ...]
    raw: tuple[str, ...]
    rule: str = ""
    is_words: bool = (
        False  # a finding without its mark: "pass" where a rating is wanted
    )
    beside: str = ""  # within, beyond, not known: against the limits in force today


@dataclass(frozen=True)
class Line:
    """The results of one batch on one day, and the rows that they stand in."""

    rows: tuple[int, ...]
    batch: str
    day: str  # 2025-12-03
    product: str
    kettle: str = ""
    pack: str = ""
    place: str = ""
    instrument: str = ""
    person: str = ""
    remark: str = ""
    values: tuple[Value, ...] = ()
