"""The limits of a chart: dashed steps, each with its revision; dotted where it did not hold yet."""

from html import escape

from lims.drawing.geometry import coordinate
from lims.drawing.trend_scales import Frame
from lims.people.queries import site_zone
from lims.trends.asked import Span, Trend
from lims.wording.dates import day
from lims.wording.limits import limits
from lims.wording.numbers import shown

A_LETTER = 6.3  # of the words of a revision, about so wide
BETWEEN, BEYOND = 16, 40  # two of them; and past the right end
DASHES = "6 4"
DOTS = "1.5 4"


def steps(trend: Trend, frame: Frame) -> str:
    """All limits that can be placed, as they followed one another."""
    drawn = [_early(trend.spans[0], trend, frame)] if trend.spans else []
    drawn += [_of_span(it, trend, frame) for it in trend.spans]
    drawn.append(_words(trend, frame))
    drawn.append(_figures(trend, frame))
    return "".join(drawn)


def _early(span: Span, trend: Trend, frame: Frame) -> str:
    """The first limits, before they held: what is older is compared with them."""
    begins = frame.across.of_day(span.since)
    if begins is None or begins <= frame.across.ends[0]:
        return ""
    end = min(frame.x(begins), frame.right)
    return _lines(span, frame, (frame.left, end), "limit early", DOTS)


def _of_span(span: Span, trend: Trend, frame: Frame) -> str:
    stretch = frame.stretch(span)
    if stretch is None:
        return ""
    zone = _zone(span, frame, stretch)
    return zone + _lines(span, frame, stretch, "limit", DASHES)


def _places(span: Span, frame: Frame) -> tuple[float | None, float | None]:
    return (
        frame.limit(span.lower, is_upper=False),
        frame.limit(span.upper, is_upper=True),
    )


def _zone(span: Span, frame: Frame, stretch: tuple[float, float]) -> str:
    low, high = _places(span, frame)
    if low is None and high is None:
        return ""
    top = frame.top if high is None else high
    bottom = frame.bottom if low is None else low
    return (
        f'<rect class="zone" x="{coordinate(stretch[0])}" y="{coordinate(top)}" '
        f'width="{coordinate(stretch[1] - stretch[0])}" '
        f'height="{coordinate(max(bottom - top, 0))}"/>'
    )


def _lines(
    span: Span, frame: Frame, stretch: tuple[float, float], kind: str, dashes: str
) -> str:
    start, end = (coordinate(it) for it in stretch)
    return "".join(
        f'<path class="{kind}" stroke-dasharray="{dashes}" d="M{start} {coordinate(y)}H{end}"/>'
        for y in _places(span, frame)
        if y is not None
    )


def _words(trend: Trend, frame: Frame) -> str:
    """Each revision's name above its begin; of those too close together the later has room in the list beneath."""
    drawn, free, end = [], frame.left, frame.right + BEYOND
    for span in trend.spans:
        stretch = frame.stretch(span)
        if stretch is None or not (span.lower or span.upper):
            continue
        words = _said(span, trend)
        x = min(stretch[0], end - A_LETTER * len(words))
        if x >= free:
            drawn.append(
                f'<text class="revision" x="{coordinate(x)}" '
                f'y="{coordinate(frame.top - 8)}">{escape(words)}</text>'
            )
            free = x + A_LETTER * len(words) + BETWEEN
    return "".join(drawn)


def _said(span: Span, trend: Trend) -> str:
    of = trend.characteristic
    held = limits(span.lower or None, span.upper or None, signed=of.is_signed)
    name = span.revision if " " in span.revision else f"revision {span.revision}"
    since = f", since {day(span.since, site_zone())}" if span.since else ""
    return f"{held} ({name}{since})"


def _figures(trend: Trend, frame: Frame) -> str:
    """The figures of today's limits at the right end of their lines; what has ended is told above them."""
    held = [it for it in trend.spans if frame.stretch(it)] or list(trend.spans[:1])
    if not held:
        return ""
    last = held[-1]
    if (frame.stretch(last) or (0, frame.right))[1] < frame.right:
        return ""
    drawn = []
    for text, y in zip((last.lower, last.upper), _places(last, frame), strict=True):
        if y is not None:
            words = shown(text, signed=trend.characteristic.is_signed)
            drawn.append(
                f'<text class="strong" x="{coordinate(frame.right + 6)}" '
                f'y="{coordinate(y + 4)}">{escape(words)}</text>'
            )
    return "".join(drawn)
