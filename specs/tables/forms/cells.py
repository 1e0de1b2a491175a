"""One cell of a form: what it holds, or why it cannot be taken and what to write instead."""

import re
from collections.abc import Callable, Sequence

from specs.numbers import Number, NumberRefused, Refused, read
from specs.tables.forms.form import FormColumn, Reads
from specs.tables.forms.kept import Kept, plain
from specs.tables.forms.limits import read_limits
from specs.tables.numbers.single import found_in
from specs.tables.saying import Fate, Said
from specs.tables.sheet import EMPTY, FAULT, FORMULA, NUMBER

BLANK = Said(Fate.EMPTY)
_WHOLE = re.compile(r"\+?([0-9]{1,6})(?:[.,]0+)?")
_NO_VALUE = frozenset({"-", "–", "—", "n/a", "n.a.", "na", "none", "k.a.", "k. a."})
Reader = Callable[[FormColumn, str, Kept], Said]


def read_cell(column: FormColumn, text: str, kind: str, kept: Kept) -> Said:
    """What becomes of a cell of a column that is no day and no moment."""
    tidy = " ".join(text.split())
    if kind in FILE_SAYS:
        return refused(FILE_SAYS[kind].format(tidy))
    if kind == EMPTY or not tidy:
        return BLANK
    if any(not sign.isprintable() for sign in tidy):
        return refused("The cell holds a sign that cannot be printed: write it anew.")
    if plain(tidy) in _NO_VALUE and not column.required:
        return Said(Fate.EMPTY, rule=f"“{tidy}” stands for nothing")
    if column.reads == Reads.NUMBER:
        return _number(kind, tidy)
    return READERS[column.reads](column, tidy, kept)


FILE_SAYS = {
    FORMULA: "The cell holds a formula: paste its value in the sheet, or write it here.",
    FAULT: "The cell shows the fault “{}”: write what it should say.",
}


def refused(why: str) -> Said:
    """A cell that cannot be taken, and why."""
    return Said(Fate.REFUSED, why=why)


def taken(value: str, text: str, rule: str = "") -> Said:
    """A cell that is taken, or converted where its value is written otherwise than its text."""
    if value == text:
        return Said(Fate.TAKEN, value, rule)
    return Said(Fate.CONVERTED, value, rule or f"“{text}” is {value}")


def _text(column: FormColumn, text: str, kept: Kept) -> Said:
    """A text; where it names something that is kept here, as that is written."""
    found = kept.found(column.of, text) if column.of else ()
    return taken(found[0], text) if len(found) == 1 else Said(Fate.TAKEN, text)


def _number(kind: str, text: str) -> Said:
    try:
        number, rule = number_of(kind, text)
    except Refused as refusal:
        return refused(refusal.sentence)
    return taken(number.canonical, text, rule)


def number_of(kind: str, text: str) -> tuple[Number, str]:
    """The number of a cell, and what is told of how it was stored. Raises Refused, for a bound too."""
    if kind == NUMBER:
        found = found_in(kind, text)
        if found.number is not None and not found.matter:
            return found.number, found.rule
    number = read(text)
    if number.is_censored:
        raise NumberRefused(f"“{text}” is a bound: write the number itself.")
    return number, ""


def _whole(_column: FormColumn, text: str, _kept: Kept) -> Said:
    found = _WHOLE.fullmatch(text)
    if found is None:
        return refused(f"“{text}” is no whole number: write one, such as 6.")
    return taken(str(int(found[1])), text)


def _limits(_column: FormColumn, text: str, _kept: Kept) -> Said:
    try:
        return taken(read_limits(text).in_words, text)
    except Refused as refusal:
        return refused(refusal.sentence)


def _choice(column: FormColumn, text: str, _kept: Kept) -> Said:
    own = {plain(it): it for it in column.choices}
    word = plain(text)
    found = own.get(word) or column.means.get(text) or column.means.get(word)
    if found is None:
        return refused(
            f"“{text}” is not among what “{column.heading}” can say: write one of "
            f"{', '.join(column.choices)}."
        )
    return taken(found, text)


def _figure(column: FormColumn, text: str, _kept: Kept) -> Said:
    """A word of the method book, a number as it is stored, or an expression as it stands."""
    meant = column.means.get(plain(text))
    if meant is not None:
        return taken(meant, text)
    try:
        number = read(text)
    except Refused:
        return Said(Fate.TAKEN, text)  # its kind of figure says what it can be
    return (
        Said(Fate.TAKEN, text) if number.is_censored else taken(number.canonical, text)
    )


def _name(column: FormColumn, text: str, kept: Kept) -> Said:
    found = kept.found(column.of, text)
    if len(found) == 1:
        return taken(found[0], text)
    if found:
        return Said(
            Fate.REFUSED,
            value=found[0],  # offered
            why=f"“{text}” can mean {' or '.join(found[:6])}: write which of them.",
        )
    return refused(
        f"“{text}” is no {column.of} that is kept here: write one that is"
        f"{_such_as(kept.near(column.of, text))}, or add it first."
    )


def _such_as(codes: Sequence[str]) -> str:
    return f", such as {' or '.join(codes)}" if codes else ""


READERS: dict[Reads, Reader] = {
    Reads.TEXT: _text,
    Reads.WHOLE: _whole,
    Reads.LIMITS: _limits,
    Reads.CHOICE: _choice,
    Reads.NAME: _name,
    Reads.FIGURE: _figure,
}
