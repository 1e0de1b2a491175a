"""A characteristic over time in a small picture, for many on one page: the points, the limits, the last value."""

from html import escape

from lims.drawing import ink
from lims.drawing.geometry import coordinate
from lims.drawing.trend import about, title
from lims.drawing.trend_limits import DASHES
from lims.drawing.trend_points import dots, history_first, shape
from lims.drawing.trend_scales import Frame, across, upright
from lims.trends.asked import Trend
from lims.wording.numbers import shown

WIDTH, HEIGHT = 300, 96
LEFT, RIGHT, TOP, BOTTOM = 2, 262, 8, 88


def small_chart(trend: Trend) -> str:
    """The points without links; nothing where no value has a place. Its page has the whole chart."""
    axis = upright(trend)
    if axis is None or not trend.points:
        return ""
    frame = Frame(axis, across(trend), LEFT, RIGHT, TOP, BOTTOM)
    return (
        f'<svg class="curve trend small" width="{WIDTH}" height="{HEIGHT}" '
        f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img">'
        f"<title>{escape(title(trend))}</title><desc>{escape(about(trend))}</desc>"
        f"{_limits(trend, frame)}"
        f'<path class="base" d="M{LEFT} {BOTTOM}H{RIGHT}"/>'
        f"{_points(trend, frame)}</svg>"
    )


def _limits(trend: Trend, frame: Frame) -> str:
    """The limits of today all the way across: a small picture asks where the values lie now."""
    today = trend.limits_today
    if today is None:
        return ""
    found = (
        (frame.limit(today.lower, is_upper=False), today.lower),
        (frame.limit(today.upper, is_upper=True), today.upper),
    )
    return "".join(
        f'<path class="limit" stroke-dasharray="{DASHES}" d="M{LEFT} {coordinate(y)}H{RIGHT}"/>'
        + ink.label(
            RIGHT + 5,
            shown(text, signed=trend.characteristic.is_signed),
            anchor="start",
            strong=True,
            y=round(y + 4),
        )
        for y, text in found
        if y is not None
    )


def _points(trend: Trend, frame: Frame) -> str:
    """Dots, and the newest value in its own shape."""
    newest = trend.points[-1]
    value = frame.upright.of(newest.value)
    drawn = "".join(dots(it, frame) for it in history_first(trend))
    if value is None:
        return drawn
    place = frame.x(frame.across.of(newest)), frame.y(value)
    return f'{drawn}<g class="last">{shape(newest.source, *place)}</g>'
