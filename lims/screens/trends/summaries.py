"""The summary of each series as a row: counts and quantiles; a mean and a spread where something can be averaged."""

from dataclasses import dataclass

from lims.methods.models import Characteristic
from lims.screens.trends import words
from lims.trends.asked import Series, Source, Summary, Trend

NUMBERS = ("Least", "Lower quartile", "Median", "Upper quartile", "Greatest")
MARKS = ("Best", "Better quartile", "Median", "Worse quartile", "Worst")
FIVE = ("minimum", "lower_quartile", "median", "upper_quartile", "maximum")


@dataclass(frozen=True)
class Row:
    """One series in figures, as they are read."""

    source: Source
    name: str
    count: int
    censored: int
    mean: str
    s: str
    named: tuple[tuple[str, str], ...]  # from the least to the greatest
    marks: str  # how often each mark was given


def rows_of(trend: Trend) -> list[Row]:
    """A row for each series that has values."""
    return [
        _row(series, series.summary, trend.characteristic)
        for series in trend.series
        if series.summary is not None
    ]


def _row(series: Series, found: Summary, characteristic: Characteristic) -> Row:
    return Row(
        source=series.source,
        name=words.SERIES[series.source],
        count=found.count,
        censored=found.censored,
        mean=_mean(found, characteristic),
        s=_spread(found, characteristic),
        named=tuple(
            (head, _known(getattr(found, name), characteristic))
            for head, name in zip(heads(characteristic), FIVE, strict=True)
        ),
        marks=", ".join(f"{mark}: {count}" for mark, count in found.counts),
    )


def _known(text: str, characteristic: Characteristic) -> str:
    return words.result(text, characteristic) or words.NOT_DETERMINED


def _mean(found: Summary, characteristic: Characteristic) -> str:
    signed = characteristic.is_signed
    return words.figure(found.mean, characteristic, signed=signed) or words.NONE


def _spread(found: Summary, characteristic: Characteristic) -> str:
    return words.figure(found.s, characteristic, more=2) or words.NONE


def heads(characteristic: Characteristic) -> tuple[str, ...]:
    """What the five figures of a summary are called: of marks the best stands first."""
    is_rated = characteristic.kind == Characteristic.Kind.RATING
    return MARKS if is_rated else NUMBERS


def is_averaged(characteristic: Characteristic) -> bool:
    """Whether a mean of its results means something."""
    return characteristic.kind == Characteristic.Kind.NUMBER


def has_order(characteristic: Characteristic) -> bool:
    """Whether its results can be put in an order, so that there is a middle one."""
    kinds = Characteristic.Kind
    return characteristic.kind in {kinds.NUMBER, kinds.LADDER, kinds.RATING}
