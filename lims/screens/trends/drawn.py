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
    """Two charts on one scale."""
    axis = one_axis(found.first, found.second)
    first, second = (
        _drawn(trend_chart(it, address=points.address, axis=axis, width=HALF))
        for it in (found.first, found.second)
    )
    return first, second


def _drawn(markup: str) -> SafeString:
    return mark_safe(markup)  # noqa: S308 - drawing escapes every word it is given
