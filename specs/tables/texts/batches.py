"""Batch numbers as plants write them: taken as they stand, without marks that nobody sees; a letter among figures is asked."""

import re
import unicodedata
from collections import Counter
from collections.abc import Mapping, Sequence
from string import ascii_letters, digits

from specs.tables.cells import (
    LEAVE,
    Cells,
    Found,
    Judged,
    Key,
    Matter,
    settled,
    shown,
    written_instead,
)
from specs.tables.saying import Answers, Choice, Fate, Said
from specs.tables.sheet import DAY, EMPTY, FAULT, FORMULA, MOMENT, NUMBER, TEXT, YES_NO

LONGEST = 40
LETTER, NO_BATCH, HOLDS_FORMULA = "letter in number", "not a batch", "formula"
# Letters that eye and scanner take for figures; the last six are Cyrillic and Greek.
FIGURES = str.maketrans("OoIlОоΟοІі", "0011000011")
DASHES = str.maketrans("‐‑‒–—−", "------")
UNSEEN = frozenset("\u00ad\u034f\u061c\u180e\u200b\u200c\u200d\u2060\ufeff")
_LOOKALIKE = re.compile(r"[OoIlОоΟοІі]")
_BUILT = {ord(it): "9" for it in digits} | {
    ord(it): "A" for it in ascii_letters if not _LOOKALIKE.match(it)
}
_PART = re.compile(r"[0-9OoIlОоΟοІі]+")
WRITE = "write the batch number alone."
NO_BATCHES = {
    FORMULA: ("holds a formula: write the batch number itself.", HOLDS_FORMULA),
    FAULT: (f"is a fault of the workbook: {WRITE}", NO_BATCH),
    YES_NO: (f"is no batch number: {WRITE}", NO_BATCH),
    DAY: (f"is a day: the program that kept the sheet may have made it of a number; {WRITE}", NO_BATCH),
    MOMENT: (f"is a moment: the program that kept the sheet may have made it of a number; {WRITE}", NO_BATCH),
}  # fmt: skip


def read_batches(cells: Cells, *, answers: Answers) -> Found:
    """The batch numbers of a column, one Said for each of the cells.

    Questions (key = letter, "/", matter), all of level cell and taking text: "letter in
    number" (choices: "proposed", "stands", "leave"), and with the choice "leave" alone
    "not a batch" and "formula". A cell that was left out has Fate.LEFT_OUT, an empty one
    Fate.EMPTY. `answers.instead` is heeded: such a text is taken as it is written. Raises nothing.
    """
    keys = dict.fromkeys(zip(cells.kinds, cells.texts, strict=True))
    shapes = Counter(shape(plain(text)) for text in {text for _, text in keys})
    found: dict[Key, Judged] = {key: _judged(*key, shapes) for key in keys}
    instead = {
        place: _judged(TEXT, text, None)
        for place, text in written_instead(cells, answers).items()
    }
    return settled(cells, found, instead, _matters(found), answers)


def plain(text: str) -> str:
    """The text in composed form (NFKC), without marks that nobody sees, with single blanks."""
    if text.isascii() and text.isprintable() and " " not in text:
        return text
    composed = unicodedata.normalize("NFKC", text).translate(DASHES)
    seen = "".join(mark for mark in composed if mark not in UNSEEN)
    return " ".join(seen.split())


def proposal(number: str, shapes: Mapping[str, int]) -> str:
    """The number with figures for letters among figures, if its neighbours are written so; empty if nothing is to be asked.

    `shapes` counts how the numbers of the column are built. A letter stands when other
    numbers have it at the same place more often than a figure.
    """
    if not _LOOKALIKE.search(number):
        return ""
    parts = [
        found.span()
        for found in _PART.finditer(number)
        if _is_doubtful(number, found.start(), found.end())
    ]
    if not parts:
        return ""
    meant = number
    for start, end in parts:
        meant = meant[:start] + meant[start:end].translate(FIGURES) + meant[end:]
    as_it_stands, as_meant = shapes[shape(number)], shapes[shape(meant)]
    is_usual = as_it_stands > max(as_meant, 1)
    return "" if is_usual else meant


def _is_doubtful(number: str, start: int, end: int) -> bool:
    """Whether a run of figures and their like holds both, and no other letter touches it."""
    run = number[start:end]
    if not _LOOKALIKE.search(run) or not any("0" <= it <= "9" for it in run):
        return False
    before, after = number[:start][-1:], number[end:][:1]
    return not before.isalpha() and not after.isalpha()


def shape(number: str) -> str:
    """How a number is built: 9 for each figure, A for each letter that is like none."""
    if number.isascii():
        return number.translate(_BUILT)
    return "".join(
        "9"
        if "0" <= it <= "9"
        else it
        if _LOOKALIKE.match(it) or not it.isalpha()
        else "A"
        for it in number
    )


def _judged(kind: str, text: str, shapes: Mapping[str, int] | None) -> Judged:
    """One cell by itself; without `shapes` it was written by hand just now, and stands."""
    number = plain(text)
    if kind in NO_BATCHES:
        why, matter = NO_BATCHES[kind]
        return _refused(text, why, matter)
    if kind == EMPTY or not number:
        return Judged(Said(Fate.EMPTY))
    why = _why_not(number)
    if why:
        return _refused(text, why, NO_BATCH)
    meant = proposal(number, shapes) if shapes and kind == TEXT else ""
    if meant:
        return _doubted(number, meant)
    return Judged(_taken(kind, text, number))


def _why_not(number: str) -> str:
    if len(number) > LONGEST:
        return f"is longer than {LONGEST} characters: {WRITE}"
    if not number.isprintable() and any(
        unicodedata.category(it)[0] == "C" for it in number
    ):
        return f"holds marks that cannot be seen: {WRITE}"
    if not any(it.isalnum() for it in number):
        return f"has no figure and no letter: {WRITE}"
    return ""


def _taken(kind: str, text: str, number: str) -> Said:
    if kind == NUMBER and "." in number:
        rule = "kept as a number, without the noughts at its ends"
        return Said(Fate.TAKEN, value=number, rule=rule)
    if number == text.strip():
        return Said(Fate.TAKEN, value=number)
    rule = "without unseen marks and with plain signs"
    return Said(Fate.CONVERTED, value=number, rule=rule)


def _doubted(number: str, meant: str) -> Judged:
    letters = "".join(dict.fromkeys(_LOOKALIKE.findall(number)))
    why = (
        f"“{number}” has a letter ({letters}) among its figures: {meant} may be meant."
    )
    rule = f"{number} read as {meant}, as answered"
    settled = {
        "proposed": Said(Fate.CONVERTED, value=meant, rule=rule),
        "stands": Said(Fate.TAKEN, value=number, rule="as it stands, as answered"),
    }
    return Judged(Said(Fate.ASKS, value=meant, why=why), LETTER, settled)


def _refused(text: str, why: str, matter: str) -> Judged:
    return Judged(Said(Fate.REFUSED, why=f"{shown(text)} {why}"), matter)


def _matters(found: Mapping[Key, Judged]) -> dict[str, Matter]:
    doubted = [it for it in found.values() if it.matter == LETTER]
    return {
        LETTER: Matter(
            "cell",
            "These batch numbers have a letter where the others have a figure.",
            (
                Choice("proposed", "Take the figure", _makes(doubted, "proposed")),
                Choice("stands", "Keep the letter", _makes(doubted, "stands")),
                LEAVE,
            ),
            proposed="proposed",
            is_refusal=False,
        ),
        NO_BATCH: Matter(
            "cell",
            "These cells hold no batch number. Write it instead, or leave them out.",
        ),
        HOLDS_FORMULA: Matter(
            "cell",
            "These cells hold a formula. Write the batch number instead, or leave them out.",
        ),
    }


def _makes(doubted: Sequence[Judged], choice: str) -> str:
    return "; ".join(it.settled[choice].value for it in doubted[:3])
