"""Columns made with blanks: read where the gaps stand in one place in every line, refused where they wander."""

import re
from collections.abc import Iterator, Sequence

from lims.sheets.reading.refusing import FileRefused

BLANKS = " "
TITLES = 5  # lines at the top that may cross the gaps
WIDEST = 2000
FEWEST_LINES = 3
_GAP = re.compile(r"\S[ \u00a0]{2,}\S")
_SIGN = re.compile(r"\S")
WANDERING = (
    "The columns are made with blanks, and no gap stands in one place in every line, so that "
    "a value could slip into the next column. Write the file with semicolons or tabs between "
    "the columns, or as .xlsx, and bring that in."
)

Span = tuple[int, int | None]


def are_meant(lines: Sequence[str]) -> bool:
    """Whether blanks divide columns here; raises FileRefused where they are meant to and do not."""
    if _spans(lines)[1]:
        return True
    said = [line for line in lines[:400] if line.strip()]
    if len(said) >= FEWEST_LINES:
        gaps = sum(1 for line in said if _GAP.search(line.strip()))
        if gaps * 2 > len(said):
            raise FileRefused(WANDERING)
    return False


def rows(lines: Sequence[str]) -> Iterator[list[str]]:
    """The cells of each line; lines above the first that keeps to the gaps stand whole in the first column."""
    titles, spans = _spans(lines)
    if not spans:
        raise FileRefused(WANDERING)
    said = 0
    for line in lines:
        said += bool(line.strip())
        if said <= titles:
            yield [line.strip()]
        else:
            yield [line[first:last].strip() for first, last in spans]


def _spans(lines: Sequence[str]) -> tuple[int, list[Span]]:
    """How many lines at the top are titles, and from where to where each column runs."""
    said = [line.rstrip() for line in lines if line.strip()]
    width = max(map(len, said), default=0)
    if len(said) < FEWEST_LINES or width > WIDEST:
        return 0, []
    crossed = 0
    for line in said[TITLES:]:
        crossed |= _mask(line, width)
    best: tuple[int, list[Span]] = (0, [])
    for titles in range(min(TITLES, len(said) - FEWEST_LINES), -1, -1):
        if titles < TITLES:
            crossed |= _mask(said[titles], width)
        spans = _between(crossed, width, said[titles:])
        if len(spans) > 1 and len(spans) >= len(best[1]):
            best = (titles, spans)
    return best


def _mask(line: str, width: int) -> int:
    """A binary figure for each sign of the line: 1 where something stands."""
    figures = _SIGN.sub("1", line).replace("\u00a0", "0").replace("\t", "1")
    return int(re.sub(r"[^1]", "0", figures).ljust(width, "0"), 2)


def _between(crossed: int, width: int, lines: Sequence[str]) -> list[Span]:
    """The columns between the gaps: of two blanks and more where none is left inside a column, or of single ones where these alone divide each line. A gap that is there by chance cuts no value."""
    figures = f"{crossed:0{width}b}".rstrip("0")
    wide = _spans_of(figures, "0{2,}")
    if len(wide) > 1:
        cells = (line[first:last].strip() for line in lines for first, last in wide)
        return [] if any(map(_GAP.search, cells)) else wide
    single = _spans_of(figures, "0+")
    is_whole = all(len(line.split()) == len(single) for line in lines)
    return single if is_whole else []


def _spans_of(figures: str, gap: str) -> list[Span]:
    starts = [0, *(it.end() for it in re.finditer(gap, figures) if it.start())]
    return list(zip(starts, [*starts[1:], None], strict=True))
