"""Words that make a row a summary of others or a line of limits, as people write them at the foot of a table (common practice, no source)."""

import re
import unicodedata

SUMMARIES = frozenset(
    word.strip()
    for word in [
        "average",
        " avg",
        " ave",
        " mean",
        " mean value",
        " median",
        " sum",
        " total",
        " totals",
        " subtotal",
        " min",
        " minimum",
        " max",
        " maximum",
        " range",
        " spread",
        " count",
        " number",
        " n",
        " s",
        " sd",
        " std",
        " std dev",
        " stdev",
        " standard deviation",
        " rsd",
        " cv",
        " variance",
        " lowest",
        " highest",
        " cpk",
        " cp",
        " mittelwert",
        " mittel",
        " durchschnitt",
        " schnitt",
        " summe",
        " gesamt",
        " anzahl",
        " spannweite",
        " standardabweichung",
        " standardabw",
        " stabw",
        " streuung",
        " varianz",
        " kleinster wert",
        " größter wert",
        " ø",
        " x̄",
        " σ",
        " xquer",
    ]
)
LIMITS = frozenset(
    word.strip()
    for word in [
        "limit",
        " limits",
        " spec",
        " specs",
        " specification",
        " target",
        " aim",
        " tolerance",
        " lower limit",
        " upper limit",
        " lsl",
        " usl",
        " lower",
        " upper",
        " grenzwert",
        " grenzwerte",
        " grenze",
        " grenzen",
        " spezifikation",
        " soll",
        " sollwert",
        " sollwerte",
        " vorgabe",
        " toleranz",
        " ziel",
        " zielwert",
        " untere grenze",
        " obere grenze",
        " untergrenze",
        " obergrenze",
    ]
)
_MARKS = re.compile(r"[.:;=*()\[\]\s]+")
_BEGINS = re.compile(
    r"[\W_]*(?:" + "|".join(map(re.escape, sorted(SUMMARIES | LIMITS))) + r")(?!\w)",
    re.IGNORECASE,
)
LONGEST = 40


def summary_word(text: str) -> str:
    """The word by which a text heads a summary ("Mean of 12:") or limits; empty for any other text."""
    if not text or len(text) > LONGEST or not _BEGINS.match(text):
        return ""
    words = _MARKS.sub(" ", unicodedata.normalize("NFC", text).casefold()).strip()
    if words in SUMMARIES or words in LIMITS:
        return words
    first = re.sub(r" (?:of|von|aus|über|der|des|n)? ?[0-9]+( .*)?$", "", words)
    long_enough = len(first) > 2
    return first if long_enough and (first in SUMMARIES or first in LIMITS) else ""
