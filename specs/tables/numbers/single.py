"""One cell of numbers by itself: the number that it holds, or what is wrong with it."""

import re
from dataclasses import dataclass
from decimal import Context, Decimal

from specs.numbers import Number, NumberRefused, read
from specs.tables.numbers.spoken import is_not_tested, says_repeated
from specs.tables.sheet import DAY, FAULT, FORMULA, MOMENT, NUMBER, TEXT, YES_NO
from specs.units import named

NOT_TESTED = "not tested"

# What can be the matter with a cell.
RETEST, BLANK, LETTER = "retest", "blank inside", "letter in number"
LIMITS, ABOUT, SEVERAL, REMARK = "limits", "about", "several numbers", "words behind"
HOLDS_FORMULA, HOLDS_FAULT, HOLDS_DATE = "formula", "fault", "date in number"
HOLDS_YES_NO, UNREADABLE = "yes or no", "unreadable"

WORKBOOK = Context(prec=15)  # a workbook keeps no more digits of a number
_PLAIN = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,6})?")
_NUM = r"[<>]? *[-+−–]?(?:[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
_FAULT = re.compile(r"#[A-ZÄÖÜ0-9/_]+[!?]?")
_MARKED = re.compile(
    rf"(?P<number>{_NUM}) *(?:(?P<stars>[*†‡]+)|\((?P<words>[^()]*)\))"
)
_WITH_UNIT = re.compile(rf"(?P<number>{_NUM}) *(?P<unit>[^0-9\s.,].*)")
_WITH_WORDS = re.compile(
    rf"(?P<number>{_NUM}) *(?:[A-Za-zÀ-ÿ]{{2}}|[(\[!?]| [0-9]*[A-Za-zÀ-ÿ]{{2}}).*"
)
_LIMITS = re.compile(
    rf"{_NUM} *(?:-|–|—|−|\.\.+|…|to|bis) *{_NUM}|(?:min|max|≥|≤|>=|<=|=>|=<)\.? *{_NUM}|{_NUM} *(?:min|max)\.?",
    re.IGNORECASE,
)
_SEVERAL = re.compile(rf"{_NUM}(?: *[/;|+&] *{_NUM})+")
_ABOUT = re.compile(
    rf"(?:~|≈|ca\.?|c\.|circa|about|approx\.?|etwa|±) *(?P<number>{_NUM})", re.I
)
_SPACED = re.compile(
    r"[<>]?[-+−–]?[0-9]+(?:[ '’_\u00a0\u2009\u202f]+[0-9]+)+(?:[.,][0-9]+)?"
)
_SPACES = re.compile(r"[ '’_\u00a0\u2009\u202f]+")
_LETTERS = str.maketrans({"l": "1", "I": "1", "|": "1", "O": "0", "o": "0"})


@dataclass(frozen=True)
class Found:
    """What stands in one cell of numbers.

    With a `matter` there is something to be asked or refused: `number` is then what is
    proposed, if anything. Neither number nor matter: not tested, and `rule` says why.
    """

    number: Number | None = None
    unit: str = ""  # that the cell states itself
    matter: str = ""
    why: str = ""
    rule: str = ""


def found_in(kind: str, text: str) -> Found:
    """What a cell says, by what the file says of it and by its text; raises nothing."""
    if kind in (NUMBER, TEXT) and _PLAIN.fullmatch(text):
        return Found(_plain(text))
    if kind in _BY_KIND:
        matter, why = _BY_KIND[kind]
        stored = _number(text) if kind == FORMULA else None
        return Found(stored, matter=matter, why=why.format(_short(text)))
    if kind == NUMBER:
        return _stored(text)
    return _typed(text.strip())


def _plain(text: str) -> Number:
    """A number without sign, unit or anything else: most are, and they are read at once."""
    value = Decimal(text.replace(",", "."))
    return Number(text, value)


_BY_KIND = {
    FORMULA: (HOLDS_FORMULA, "holds a formula, which shows {}: paste its value."),
    FAULT: (HOLDS_FAULT, "holds the fault {}: write the number that was read."),
    DAY: (HOLDS_DATE, "holds a date, {}: the program that wrote the sheet may have made it of a number; write that."),
    MOMENT: (HOLDS_DATE, "holds a date, {}: the program that wrote the sheet may have made it of a number; write that."),
    YES_NO: (HOLDS_YES_NO, "holds yes or no: write the number that was read."),
}  # fmt: skip


def _stored(text: str) -> Found:
    """A number as a workbook stores it, with the noise of its last digits."""
    try:
        value = Decimal(text)
    except ArithmeticError:
        return _typed(text)
    if not value.is_finite() or abs(value.adjusted()) > 15:
        return _unreadable(text)
    kept = WORKBOOK.plus(value)
    kept = kept.normalize() if kept == kept.to_integral_value() else kept
    rule = "" if kept == value else f"{text} is stored, 15 digits of it are kept"
    return Found(Number.of(Decimal(f"{kept:f}").normalize(WORKBOOK)), rule=rule)


def _typed(text: str) -> Found:
    if is_not_tested(text):
        return Found(rule=f"“{text}” says so")
    if text.startswith("="):
        return Found(matter=HOLDS_FORMULA, why=f"{_short(text)} is a formula: paste its value.")  # fmt: skip
    if _FAULT.fullmatch(text):
        return Found(matter=HOLDS_FAULT, why=_BY_KIND[FAULT][1].format(text))
    number = _number(text)
    if number is not None:
        return Found(number)
    for look in _LOOKS:
        found = look(text)
        if found is not None:
            return found
    return _unreadable(text)


def _number(text: str) -> Number | None:
    try:
        return read(text)
    except NumberRefused:
        return None


def _marked(text: str) -> Found | None:
    """A number with a star or with words in brackets behind it."""
    parts = _MARKED.fullmatch(text)
    number = _number(parts["number"]) if parts else None
    if parts is None or number is None:
        return None
    is_again = parts["stars"] or says_repeated(parts["words"])
    return Found(number, matter=RETEST) if is_again else None


def _of_unit(text: str) -> Found | None:
    parts = _WITH_UNIT.fullmatch(text)
    number = _number(parts["number"]) if parts else None
    if parts is None or number is None:
        return None
    unit = named(parts["unit"])
    return Found(number, unit=unit) if unit else _of_share(number, parts["unit"])


def _of_share(number: Number, text: str) -> Found | None:
    """A share in percent, by mass or by whatever the characteristic says; a bare ° is one of it too."""
    word = text.casefold().replace(" ", "").rstrip(".")
    if word in {"%", "°", "wt%", "wt.%", "gew%", "gew.%", "gew.-%", "mass%", "%(m/m)"}:
        return Found(number, unit="°" if word == "°" else "%")
    return None


def _of_limits(text: str) -> Found | None:
    if _LIMITS.fullmatch(text):
        why = f"{_short(text)} looks like limits, not a result: write the one number that was read."
        return Found(matter=LIMITS, why=why)
    if _SEVERAL.fullmatch(text):
        why = f"{_short(text)} holds several numbers: write each into a row of its own, or their mean."
        return Found(matter=SEVERAL, why=why)
    return None


def _with_blank(text: str) -> Found | None:
    number = _number(_SPACES.sub("", text)) if _SPACED.fullmatch(text) else None
    if number is None:
        return None
    why = f"{_short(text)} has a blank inside: {number} is proposed."
    return Found(number, matter=BLANK, why=why)


def _with_letter(text: str) -> Found | None:
    meant = _SPACES.sub("", text.translate(_LETTERS))
    number = _number(meant) if any(it.isdigit() for it in text) else None
    if number is None:
        return None
    why = f"{_short(text)} has a letter among its digits: if you mean {number}, write it so."
    return Found(number, matter=LETTER, why=why)


def _of_about(text: str) -> Found | None:
    parts = _ABOUT.fullmatch(text)
    number = _number(parts["number"]) if parts else None
    if number is None:
        return None
    why = f"{_short(text)} is only about a number: if {number} was read, write it so."
    return Found(number, matter=ABOUT, why=why)


def _with_words(text: str) -> Found | None:
    """A number with words behind it that are no unit."""
    parts = _WITH_WORDS.fullmatch(text)
    number = _number(parts["number"]) if parts else None
    if number is None:
        return None
    why = f"{_short(text)} has words behind its number: if you mean {number}, write it so."
    return Found(number, matter=REMARK, why=why)


# The first that knows what to do with a text says what it is.
_LOOKS = (
    _marked, _of_unit, _of_limits, _with_blank, _with_letter, _of_about, _with_words,
)  # fmt: skip


def _unreadable(text: str) -> Found:
    try:
        read(text)
    except NumberRefused as refusal:
        if "label" not in refusal.sentence:
            why = refusal.sentence.replace(" box ", " cell ")
            return Found(matter=UNREADABLE, why=why)
    why = f"{_short(text)} is no result: write the number that was read."
    return Found(matter=UNREADABLE, why=why)


def _short(text: str) -> str:
    clean = "".join(mark if mark.isprintable() else "?" for mark in text.strip())
    return f"“{clean[:40]}…”" if len(clean) > 40 else f"“{clean}”"
