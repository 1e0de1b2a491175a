"""Which sign divides the columns of a text: the one that gives most lines the same number of columns."""

import csv
import re
from collections import Counter
from collections.abc import Sequence

from lims.sheets.reading import steady

IN_ORDER = ("\t", ";", "|", ",")  # which of them wins where they divide equally well
LOOKED_AT = 400  # lines
NEARLY = 0.1  # shares that differ less are equal
FEWEST = 0.3  # of the lines must agree
ONE_COLUMN = ""
_DECIMAL = re.compile(r"[0-9],[0-9]")


def delimiter_of(lines: Sequence[str]) -> str:
    """A delimiter, blanks for steady columns, or none where there is one column; raises FileRefused for columns of blanks that are not steady."""
    some = [line for line in lines[: LOOKED_AT * 2] if line.strip()][:LOOKED_AT]
    shares = {sign: _share(some, sign) for sign in IN_ORDER}
    if _are_decimals(some):
        shares[","] = 0
    best = max(shares.values())
    if best >= FEWEST:
        return next(sign for sign in IN_ORDER if shares[sign] > best - NEARLY)
    return steady.BLANKS if steady.are_meant(lines) else ONE_COLUMN


def _share(lines: Sequence[str], sign: str) -> float:
    """The share of lines that have the commonest number of columns, which is two or more."""
    counts: Counter[int] = Counter()
    # Each line by itself: a quotation mark that is not closed ends with it.
    for line in lines:
        counts.update(len(row) for row in csv.reader([line], delimiter=sign))
    del counts[0], counts[1]
    return max(counts.values(), default=0) / len(lines) if lines else 0


def _are_decimals(lines: Sequence[str]) -> bool:
    """Whether every comma stands inside a number: 280,5 is one value."""
    words = [word for line in lines for word in line.split() if "," in word]
    return bool(words) and all(
        word.count(",") == 1 and _DECIMAL.search(word) for word in words
    )
