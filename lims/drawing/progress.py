"""The other rulers of equal length: a rating in its steps, and a test that runs by the clock or the counter."""

from collections import Counter
from collections.abc import Sequence

from lims.drawing import ink
from lims.drawing.geometry import (
    LEFT,
    LENGTH,
    RIGHT,
    Plain,
    evenly,
    number,
)
from lims.drawing.rulers import NOT_MET
from lims.wording.catalogue.bounds import SENTENCES
from lims.wording.languages import Language

COPPER_STRIP = ("1a", "1b", "2a", "2b", "2c", "2d", "2e", "3a", "3b", "4a", "4b", "4c")
DOTS_A_ROW, MOST_DOTS = 5, 10


def rating_bar(
    *,
    limit: str | None,
    value: str | None = None,
    verdict: str = "",
    last: Sequence[str] = (),
    words: Sequence[str] = COPPER_STRIP,
    name: str = "",
    other: bool = False,
    title: str = "",
    language: Language = "en",
) -> str:
    """A rating: equal steps, the limit line behind the last allowed one."""
    step = LENGTH / len(words)
    places = {word: LEFT + step * (at + 0.5) for at, word in enumerate(words)}
    end = LEFT + step * (words.index(limit) + 1) if limit in words else None
    parts = [
        ink.zone(LEFT, end) if end else "",
        ink.ruled([], list(places.values())),
        ink.limit_line(end) if end and end < RIGHT else "",
        *(ink.label(x, word, strong=word == limit) for word, x in places.items()),
        _rated(last, places),
    ]
    if value in places:
        states = [
            *(["out"] if verdict == NOT_MET else []),
            *(["other"] if other else []),
        ]
        parts.append(ink.cone(places[value], ink.BASE - 0.5, *states))
    return ink.drawing(title or _rating_title(name, value, limit, language), parts)


def _rating_title(
    name: str, value: str | None, limit: str | None, language: Language
) -> str:
    head = " ".join(part for part in (name, value) if part)
    if not limit:
        return head
    return f"{head}, {SENTENCES['most'].into(language).format(upper=limit)}"


def _rated(last: Sequence[str], places: dict[str, float]) -> str:
    return "".join(
        ink.dot(places[word] - 8 + n % DOTS_A_ROW * 4, 28 + n // DOTS_A_ROW * 4, 1.5)
        for word, count in sorted(Counter(last).items())
        if word in places
        for n in range(min(count, MOST_DOTS))
    )


def progress(
    *,
    title: str,
    total: Plain,
    done: Plain,
    major: Plain,
    minor: Plain,
    labels: Sequence[tuple[Plain, str]] = (),
    slots: Sequence[tuple[Plain, bool]] = (),
) -> str:
    """A running test: steel up to now, a dot for each reading, filled when it is taken.

    ``done`` is counted from a stored start. ``labels`` are (value, words) beneath the
    ruler, ``slots`` are (value, taken).
    """

    def x(value: Plain) -> float:
        return float(LEFT + LENGTH * number(value) / number(total))

    here = min(max(x(done), LEFT), RIGHT)
    long = evenly(total, major, x)
    short = [place for place in evenly(total, minor, x) if place not in long]
    parts = [
        ink.zone(LEFT, RIGHT),
        ink.track_done(here),
        ink.ruled(short, long),
        *(_slot(x(at), taken=taken) for at, taken in slots),
        *(ink.label(x(at), words, anchor=_anchor(x(at)), y=46) for at, words in labels),
        ink.cone(here, ink.BASE - 0.5, "run"),
    ]
    return ink.drawing(title, parts)


def _slot(x: float, *, taken: bool) -> str:
    kind = "slot full" if taken else "slot"
    return ink.circle(kind, x, ink.BASE + 10.5, 3)


def _anchor(x: float) -> str:
    return {LEFT: "start", RIGHT: "end"}.get(round(x), "middle")
