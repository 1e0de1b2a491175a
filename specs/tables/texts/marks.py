"""A column of ratings, findings or words: marks by their scale, findings that know no mark kept as words."""

import re
from collections import defaultdict
from collections.abc import Sequence

from specs.tables.asking import Column, count_of, left_out
from specs.tables.known import Measured
from specs.tables.numbers import single
from specs.tables.numbers.figures import Places
from specs.tables.numbers.spoken import is_met, is_not_tested
from specs.tables.saying import Fate, Said
from specs.tables.seen import Key
from specs.tables.sheet import DAY, FAULT, FORMULA, MOMENT, YES_NO

NO_MARK = "no mark"
WORDS = "words"  # the kind of a characteristic
LONGEST = 300  # characters of words
JOINT = "/"  # between the marks of two bearings or strips: 0/1
BARE = "a finding without its rating: kept as words"
_JOINTS = re.compile(r"\s*[/,;+&-]\s*")


def read_marks(column: Column, measured: Measured, places: Places) -> dict[Key, Said]:
    """What becomes of each different cell of a column of ratings, of findings or of words.

    A mark is taken in the letters of its scale. "pass" where a rating is wanted says
    nothing of the rating: it is kept as words and is never one.
    """
    said = {key: _said(key, measured) for key in places}
    refused: defaultdict[str, list[Key]] = defaultdict(list)
    for key, it in said.items():
        if it.fate is Fate.REFUSED:
            refused[it.question].append(key)
    for matter, keys in sorted(refused.items()):
        said |= _refused(column, matter, {key: said[key] for key in keys}, places)
    return said


def is_bare(value: str, measured: Measured) -> bool:
    """Whether a value is words where the scale has marks."""
    return bool(measured.scale) and not _of_scale(value, measured.scale)


def _refused(
    column: Column, matter: str, said: dict[Key, Said], places: Places
) -> dict[Key, Said]:
    where = column.standing(place for key in said for place in places[key])
    scale_or_value = _WANTED.get(matter, "no mark of its scale: write one of it")
    sentence = (
        f"{count_of(where)} of {column.name} hold{'s' if len(where) == 1 else ''} "
        f"{scale_or_value}, or leave the cell out."
    )
    if column.refuse(matter, where, sentence):
        return {key: left_out(it.why) for key, it in said.items()}
    return {
        key: Said(Fate.REFUSED, it.value, why=it.why, question=column.key(matter))
        for key, it in said.items()
    }


_WANTED = {
    single.HOLDS_FORMULA: "a formula, not a value: paste the value",
    single.HOLDS_FAULT: "a fault, not a value: write what was found",
    single.HOLDS_DATE: "a date where a mark is wanted: write the mark",
    single.UNREADABLE: "what cannot be kept: write it in plain signs, shorter",
}


def _said(key: Key, measured: Measured) -> Said:
    kind, text = key[0], " ".join(key[1].split())
    if kind == FORMULA or text.startswith("="):
        return _no(single.HOLDS_FORMULA, f"holds a formula, which shows “{text}”.")
    if kind == FAULT:
        return _no(single.HOLDS_FAULT, f"holds the fault “{text}”.")
    if is_not_tested(text) and text.casefold() not in map(str.casefold, measured.scale):
        rule = f"{single.NOT_TESTED}: “{text}” says so"
        return Said(Fate.TAKEN, single.NOT_TESTED, rule=rule)
    if measured.scale:
        return _mark(kind, text, measured)
    return _words(text)


def _no(matter: str, why: str, proposed: str = "") -> Said:
    """A refusal; its matter waits in the place of the question's key."""
    return Said(Fate.REFUSED, proposed, why=why, question=matter)


def _words(text: str) -> Said:
    if len(text) > LONGEST or not text.isprintable():
        return _no(single.UNREADABLE, f"is longer than {LONGEST} characters, or holds signs that cannot be printed.")  # fmt: skip
    return Said(Fate.TAKEN, text)


def _mark(kind: str, text: str, measured: Measured) -> Said:
    if kind in (DAY, MOMENT):
        return _no(single.HOLDS_DATE, f"holds a date, {text}.")
    scale = measured.scale
    mark = _of_scale(text, scale)
    if mark:
        return _taken(text, mark)
    met = is_met(
        "true" if kind == YES_NO and text.casefold() in {"1", "true"} else text
    )
    if met is not None:
        return _finding(text, met=met, measured=measured)
    return _words(text) if measured.kind == WORDS else _no_mark(text, scale)


def _of_scale(text: str, scale: Sequence[str]) -> str:
    """The mark of the scale that a text is, whatever its capitals and blanks; of two joined ones both."""
    marks = {"".join(it.casefold().split()): it for it in scale}
    mark = marks.get("".join(text.casefold().split()), "")
    if mark or not all(it.isdigit() for it in scale):
        return mark
    parts = [marks.get(it, "") for it in _JOINTS.split(text)]
    return JOINT.join(parts) if len(parts) == 2 and all(parts) else ""


def _taken(text: str, mark: str) -> Said:
    if text == mark:
        return Said(Fate.TAKEN, mark)
    return Said(Fate.CONVERTED, mark, rule=f"“{text}” is {mark}")


def _finding(text: str, *, met: bool, measured: Measured) -> Said:
    """Met or not: a mark where the scale has just these two, words where it has ratings."""
    if len(measured.scale) == 2:
        return _taken(text, measured.scale[0 if met else 1])
    return Said(Fate.TAKEN, text, rule=BARE)


def _no_mark(text: str, scale: Sequence[str]) -> Said:
    meant = _of_scale(text.translate(str.maketrans("lIO|", "1101")), scale)
    ends = ", ".join(scale) if len(scale) <= 4 else f"{scale[0]} to {scale[-1]}"
    two = [_of_scale(it, scale) for it in _JOINTS.split(text)]
    if len(two) == 2 and all(two):
        meant = max(two, key=scale.index)
        why = f"“{text[:40]}” names two ratings: write the one that was found; the worse is {meant}."
        return _no(NO_MARK, why, meant)
    hint = f" Perhaps {meant}." if meant else ""
    return _no(NO_MARK, f"“{text[:40]}” is no mark of the scale: write {ends}.{hint}", meant)  # fmt: skip
