"""What a ruler says in words: value, limits, range of the last lots."""

from collections.abc import Sequence

from lims.drawing.geometry import Plain, number
from lims.wording.catalogue.bounds import COUNTED, SENTENCES
from lims.wording.languages import Language
from lims.wording.limits import limits
from lims.wording.numbers import shown, with_unit

Text = str | None


def bar_title(
    name: str,
    value: Plain | None,
    bounds: tuple[Plain | None, Plain | None],
    last: Sequence[Plain],
    *,
    unit: str,
    signed: bool,
    other: bool,
    language: Language,
) -> str:
    """``Worked penetration 281, 265 to 295 × 0.1 mm; last 10 lots 274 to 286``."""
    figure = with_unit(typed(value), unit, language, signed=signed)
    head = " ".join(part for part in (name, figure) if part)
    if other:
        head = f"{head} ({SENTENCES['other'].into(language)})"
    limit = limits(typed(bounds[0]), typed(bounds[1]), "", language, signed=signed)
    title = ", ".join(part for part in (head, limit) if part)
    tail = _range(last, language, signed=signed)
    return f"{title}; {tail}" if tail else title


def _range(last: Sequence[Plain], language: Language, *, signed: bool) -> str:
    if not last:
        return ""
    ordered = sorted(last, key=number)
    low, high = (
        shown(typed(it), language, signed=signed) for it in (ordered[0], ordered[-1])
    )
    words = COUNTED["last"].into(len(last), language)
    return words.format(count=len(last), low=low, high=high)


def bar_about(
    bands: dict[str, tuple[Plain | None, Plain | None] | None],
    sets: dict[str, Sequence[Plain]],
    language: Language,
    *,
    signed: bool,
) -> str:
    """What else the picture shows: bands and the readings of a set."""
    told = [
        SENTENCES[kind]
        .into(language)
        .format(
            band=limits(typed(band[0]), typed(band[1]), "", language, signed=signed)
        )
        for kind, band in bands.items()
        if band is not None
    ]
    told += [
        SENTENCES[kind]
        .into(language)
        .format(
            values=", ".join(shown(typed(it), language, signed=signed) for it in values)
        )
        for kind, values in sets.items()
        if values
    ]
    return " ".join(told)


def typed(value: Plain | None) -> Text:
    """A plain number as text, so that one formatter shows it."""
    return None if value is None else str(value)
