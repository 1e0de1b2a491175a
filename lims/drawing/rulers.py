"""The limit bar: one value on its limits. The limits never move, and the cone repeats the verdict."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from lims.drawing import ink
from lims.drawing.geometry import (
    LEFT,
    RIGHT,
    Plain,
    Scale,
    beyond,
    scale,
    ticks,
)
from lims.drawing.titles import bar_about, bar_title, typed
from lims.wording.languages import Language
from lims.wording.numbers import shown

Bounds = tuple[Plain | None, Plain | None]
NOT_MET = "not met"


@dataclass(frozen=True, kw_only=True)
class Bar:
    """What a limit bar shows."""

    name: str = ""
    lower: Plain | None = None
    upper: Plain | None = None
    value: Plain | None = None
    verdict: str = ""
    last: Sequence[Plain] = ()
    internal: Bounds | None = None
    accept: Bounds | None = None
    drops: Sequence[Plain] = ()
    aside: Sequence[Plain] = ()
    unit: str = ""
    signed: bool = False
    other: bool = False
    small: bool = False
    span: Plain | None = None
    language: Language = "en"
    scale: Scale = field(init=False)

    def __post_init__(self) -> None:
        ruler = scale(self.lower, self.upper, signed=self.signed, span=self.span)
        object.__setattr__(self, "scale", ruler)
        object.__setattr__(self, "last", tuple(self.last)[-10:])

    @property
    def base(self) -> float:
        return ink.BASE - 3 if self.small else ink.BASE

    @property
    def thickness(self) -> int:
        return 5 if self.small else 6


def limit_bar(
    *,
    name: str = "",
    lower: Plain | None = None,
    upper: Plain | None = None,
    value: Plain | None = None,
    verdict: str = "",
    last: Sequence[Plain] = (),
    internal: Bounds | None = None,
    accept: Bounds | None = None,
    drops: Sequence[Plain] = (),
    aside: Sequence[Plain] = (),
    unit: str = "",
    signed: bool = False,
    other: bool = False,
    small: bool = False,
    span: Plain | None = None,
    title: str = "",
    language: Language = "en",
) -> str:
    """One value on its limits, as SVG; nothing where there is no limit.

    ``value`` may begin with ``>`` or ``<``. ``verdict`` alone decides whether the cone
    is red. ``internal`` is hatched (still met); ``accept`` narrows the zone of a decision
    rule. ``last`` are earlier lots, ``drops`` and ``aside`` the readings of one set.
    """
    if lower is None and upper is None:
        return ""
    bar = Bar(
        name=name,
        lower=lower,
        upper=upper,
        value=value,
        verdict=verdict,
        last=last,
        internal=internal,
        accept=accept,
        drops=drops,
        aside=aside,
        unit=unit,
        signed=signed,
        other=other,
        small=small,
        span=span,
        language=language,
    )
    parts = (
        _bands(bar),
        _rule(bar),
        _limits(bar),
        _past(bar),
        _readings(bar),
        _value(bar),
    )
    return ink.drawing(
        title or _title(bar), parts, about=_about(bar), height=28 if small else 48
    )


def _title(bar: Bar) -> str:
    return bar_title(
        bar.name,
        bar.value,
        (bar.lower, bar.upper),
        bar.last,
        unit=bar.unit,
        signed=bar.signed,
        other=bar.other,
        language=bar.language,
    )


def _about(bar: Bar) -> str:
    return bar_about(
        {"internal": bar.internal, "accept": bar.accept},
        {"drops": bar.drops, "aside": bar.aside},
        bar.language,
        signed=bar.signed,
    )


def _places(bar: Bar, bounds: Bounds) -> tuple[float, float]:
    low = bar.scale.x(bounds[0]) if bounds[0] is not None else LEFT
    high = bar.scale.x(bounds[1]) if bounds[1] is not None else RIGHT
    return low, high


def _bands(bar: Bar) -> str:
    low, high = _places(bar, bar.accept or (bar.lower, bar.upper))
    drawn = ink.zone(low, high, bar.base, bar.thickness)
    if bar.internal is not None:
        inner_low, inner_high = _places(bar, bar.internal)
        limit_low, limit_high = _places(bar, (bar.lower, bar.upper))
        begins, ends = max(low, limit_low), min(high, limit_high)
        drawn += ink.hatched(begins, inner_low, bar.base, bar.thickness)
        drawn += ink.hatched(inner_high, ends, bar.base, bar.thickness)
    for band in (bar.internal, bar.accept):
        drawn += _edges(bar, band)
    return drawn


def _edges(bar: Bar, band: Bounds | None) -> str:
    return "".join(
        ink.edge(bar.scale.x(bound), bar.base)
        for bound in band or ()
        if bound is not None
    )


def _rule(bar: Bar) -> str:
    short, long = ticks(bar.scale)
    return ink.ruled(short, long, bar.base)


def _limits(bar: Bar) -> str:
    drawn = "".join(
        ink.limit_line(bar.scale.x(limit), bar.base, 7 if bar.small else 11)
        for limit in (bar.lower, bar.upper)
        if limit is not None
    )
    return drawn if bar.small else drawn + _figures(bar)


def _figures(bar: Bar) -> str:
    drawn = "".join(
        ink.label(
            bar.scale.x(limit),
            shown(typed(limit), bar.language, signed=bar.signed),
            strong=True,
        )
        for limit in (bar.lower, bar.upper)
        if limit is not None
    )
    nought = bar.scale.x(0)
    if bar.lower is None and LEFT <= nought < bar.scale.x(bar.upper or 0):
        drawn += ink.label(nought, "0", anchor="middle" if bar.signed else "start")
    return drawn


def _past(bar: Bar) -> str:
    places = [x for x in map(bar.scale.x, bar.last) if LEFT <= x <= RIGHT]
    return ink.dots(places, bar.base + 11.5)


def _readings(bar: Bar) -> str:
    return "".join(
        ink.reading(bar.scale.x(reading), bar.base, *states)
        for states, readings in (((), bar.drops), (("aside",), bar.aside))
        for reading in readings
        if LEFT <= bar.scale.x(reading) <= RIGHT
    )


def _value(bar: Bar) -> str:
    if bar.value is None:
        return ""
    place = bar.scale.x(bar.value)
    x = min(max(place, LEFT), RIGHT)
    drawn = ink.break_before(x, bar.base) if place != x else ""
    if sign := beyond(bar.value):
        drawn += ink.lies(x, sign, bar.base)
    states = [
        state
        for state, holds in (("out", bar.verdict == NOT_MET), ("other", bar.other))
        if holds
    ]
    tip = bar.base - (1 if bar.other else 0.5)
    return drawn + ink.cone(x, tip, *states, size=14 if bar.small else 18)


KEYS: dict[str, str] = {
    "value": ink.cone(7, 19),
    "other": ink.cone(7, 19, "other"),
    "last": ink.dot(7, 12),
    "drop": '<path class="drop" d="M7 5V19"/>',
    "aside": '<path class="drop aside" d="M7 5V19"/>',
    "internal": ink.hatched(0, 14, 15.5),
    "accept": f"{ink.zone(2, 12, 15.5)}{ink.edge(2, 13)}{ink.edge(12, 13)}",
}


def key(kind: str) -> str:
    """One sign of a ruler by itself, to stand before its words in a key."""
    return (
        '<svg class="bar" width="14" height="20" viewBox="0 0 14 20" aria-hidden="true">'
        f"{KEYS[kind]}</svg>"
    )
