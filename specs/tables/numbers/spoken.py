"""Words that stand where results are wanted: not tested, marked as a repeat, as agreed. Common practice of pen books, no source."""

import re

NOT_TESTED = frozenset(
    it.replace(" ", "\u00a0")
    for it in (
        "-", "--", "---", "–", "—", ".", "/", "n/a", "na", "n.a.", "n.a", "nt", "n.t.", "n.t",
        "n/t", "nil", "none", "not tested", "not measured", "not determined", "not done",
        "not run", "not required", "untested", "n.b.", "nb", "n. b.", "k.a.", "k. a.", "ka",
        "keine angabe", "nicht geprüft", "nicht bestimmt", "nicht gemessen", "entfällt",
        "entf.", "n.d.", "n. d.", "nd",
    )
)  # fmt: skip
MET = frozenset(
    it.replace(" ", "\u00a0")
    for it in (
        "pass", "passes", "passed", "ok", "o.k", "o.k.", "good", "met", "conforms", "yes", "y",
        "true", "ja", "j", "bestanden", "erfüllt", "i.o", "i.o.", "io", "in ordnung", "gut",
        "✓", "✔",
    )
)  # fmt: skip
NOT_MET = frozenset(
    it.replace(" ", "\u00a0")
    for it in (
        "fail", "fails", "failed", "not met", "bad", "no", "n", "false", "nein",
        "nicht bestanden", "nicht erfüllt", "n.i.o", "n.i.o.", "nio", "nicht in ordnung",
        "schlecht", "✗", "✘",
    )
)  # fmt: skip
_REPEATED = re.compile(
    r"re-?tests?(ed)?|re-?runs?|repeat(ed)?|rpt|rep|2nd( test| run)?|second( test| run)?|"
    r"wdh\.?|wiederholung|wiederholt|nachpr(ü|ue)fung|w",
    re.IGNORECASE,
)


def folded(text: str) -> str:
    """A text as it is looked up: small letters, its blanks told by one sign."""
    return "\u00a0".join(text.casefold().split())


def is_not_tested(text: str) -> bool:
    """Whether a text says that there is no result."""
    return folded(text) in NOT_TESTED


def is_met(text: str) -> bool | None:
    """Whether a text finds something as it should be; None where it says neither."""
    word = folded(text).rstrip("!?")
    if word in MET:
        return True
    return False if word in NOT_MET else None


def says_repeated(text: str) -> bool:
    """Whether the mark behind a number says that it was measured again: *, (retest)."""
    return _REPEATED.fullmatch(text.strip()) is not None
