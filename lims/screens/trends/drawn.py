"""The drawings of these pages, each point of a chart leading to where its value comes from."""

from django.utils.safestring import SafeString, mark_safe

from lims.drawing.small import small_chart
from lims.drawing.trend import one_axis, trend_chart
from lims.screens.trends import points
from lims.trends.asked import Comparison, Trend

HALF = 468  # two of them stand beside each other


def one(trend: Trend) -> SafeString:
    """A chart; nothing where no value has a place on it."""
    return _drawn(trend_chart(trend, address=points.address))


def small(trend: Trend) -> SafeString:
    """The same in a small picture without links."""
    return _drawn(small_chart(trend))


def both(found: Comparison) -> tuple[SafeString, SafeString]:
    """Two charts on one scale, and on the same days unless two periods are compared."""
    axis = one_axis(found.first, found.second)
    pair = found.first, found.second
    one_, other = (it.asked for it in pair)
    is_one_period = (one_.since, one_.until) == (other.since, other.until)
    shared = pair if is_one_period else ()
    first, second = (
        _drawn(
            trend_chart(
                it, address=points.address, axis=axis, beside=shared, width=HALF
            )
        )
        for it in pair
    )
    return first, second


def _drawn(markup: str) -> SafeString:
    return mark_safe(markup)  # noqa: S308 - drawing escapes every word it is given
