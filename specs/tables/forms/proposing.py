"""Which column of a table is which column of a form, from the words of its head."""

import re
from collections.abc import Mapping

from specs.tables.forms.form import Form
from specs.tables.forms.logs import LOG, MEASURES, TIME, VALUE, unit_of_time
from specs.tables.layout import Block
from specs.units import UNITS

LEFT_OUT = "left out"
WORDS_FOR_TIME = ("t", "time", "timestamp", "elapsed", "zeit", "uhrzeit")
_IN_BRACKETS = re.compile(r"[(\[][^)\]]*[)\]]")
_NO_WORD = re.compile(r"[^\w%]+")


def plain_heading(text: str) -> str:
    """The words of a head without its unit, its signs and its size of letters."""
    bare = _IN_BRACKETS.sub(" ", text.casefold())
    return " ".join(_NO_WORD.sub(" ", bare).split())


def proposed(block: Block, form: Form) -> Mapping[str, str]:
    """The form's column for each letter of the block, each proposed once; what no word speaks for is left out."""
    words = _words_of(form)
    found: dict[str, str] = {}
    taken: set[str] = set()
    for letter in block.letters:
        key = words.get(plain_heading(block.headings.get(letter, "")), LEFT_OUT)
        if key in taken:
            key = LEFT_OUT
        if key != LEFT_OUT:
            taken.add(key)
        found[letter] = key
    return found


def _words_of(form: Form) -> dict[str, str]:
    """Every heading that leads to a column: the form's own headings go before what others write."""
    words: dict[str, str] = {}
    for column in form.columns:
        words.setdefault(plain_heading(column.heading), column.key)
    for column in form.columns:
        for also in (column.key, *column.also):
            words.setdefault(plain_heading(also), column.key)
    return words


def proposed_for(block: Block, form: Form) -> Mapping[str, str]:
    """The same; in a logger's file every column that says what a sensor shows is a value."""
    found = dict(proposed(block, form))
    if form.kind != LOG.kind:
        return found
    for letter in block.letters:
        if found[letter] == LEFT_OUT and _is_sensor(block, letter):
            found[letter] = VALUE
    if TIME not in found.values():
        found.update(_first_time(block, found))
    return found


def _is_sensor(block: Block, letter: str) -> bool:
    """Whether a column shows a unit of pressure or temperature, or a word for what a sensor shows."""
    unit = UNITS.get(block.units.get(letter, ""))
    if unit is not None and unit.measures in MEASURES:
        return True
    words = f" {plain_heading(block.headings.get(letter, ''))} "
    column = LOG.column(VALUE)
    names = map(plain_heading, (column.heading, *column.also))
    return any(f" {it} " in words for it in names if len(it) > 1)


def _first_time(block: Block, found: Mapping[str, str]) -> dict[str, str]:
    """The first column that names a unit of time or begins with a word for time."""
    for letter in block.letters:
        words = plain_heading(block.headings.get(letter, "")).split()
        begins = bool(words) and words[0] in WORDS_FOR_TIME
        named = unit_of_time(*words, block.units.get(letter, ""))
        if found[letter] == LEFT_OUT and (begins or named):
            return {letter: TIME}
    return {}
