"""A characteristic over time or over batches: the values of each source, beside the limits as they stood.

Ink comes from the style sheet, by class: `curve trend`; `pt released`, `pt not-released`,
`pt first-value`, `pt history`, or `dots` of the same; `lies`; `limit`, `limit early`; `zone`, `base`, `minor`;
texts, `strong`, `revision`; `key`.
"""

from html import escape

from lims.drawing import ink
from lims.drawing.geometry import coordinate
from lims.drawing.trend_limits import steps
from lims.drawing.trend_points import MOST_LINKS, Address, key, points
from lims.drawing.trend_scales import Frame, Upright, across, upright
from lims.people.queries import site_zone
from lims.trends.asked import Along, Trend, Where
from lims.wording.dates import day
from lims.wording.limits import limits
from lims.wording.numbers import unit_shown

WIDTH, HEIGHT = 960, 400
LEFT, RIGHT, TOP, BOTTOM = 64, 908, 48, 330
OF = {
    Where.FINISHED: "finished product",
    Where.KETTLE: "kettle samples",
    Where.AFTER_MILL: "samples after the mill",
}


def trend_chart(
    trend: Trend,
    *,
    address: Address | None = None,
    axis: Upright | None = None,
    beside: tuple[Trend, ...] = (),
    width: int = WIDTH,
) -> str:
    """The chart as SVG, for the page and for paper; nothing where no value has a place.

    `address` gives where a point leads. Charts with one `axis` (of `one_axis`) can be
    compared, and `beside` names those whose days this one shares. What the picture shows stands in its title and description in words.
    """
    axis = axis or upright(trend)
    if axis is None or not trend.points:
        return ""
    frame = Frame(
        axis, across(trend, *beside), LEFT, width - (WIDTH - RIGHT), TOP, BOTTOM
    )
    parts = [
        steps(trend, frame),
        _upright(frame, trend),
        _across(frame),
        points(trend, frame, address),
    ]
    foot, height = key(trend, (LEFT, width), HEIGHT - 12)
    return (
        f'<svg class="curve trend" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}" role="group">'
        f"<title>{escape(title(trend))}</title><desc>{escape(about(trend))}</desc>"
        f"{''.join(parts)}{foot}</svg>"
    )


def one_axis(*trends: Trend) -> Upright | None:
    """The axis that holds the values of all these charts of one characteristic."""
    return upright(*trends)


def title(trend: Trend) -> str:
    """``Worked penetration, 60 double strokes, of LX2, finished product``."""
    asked = trend.asked
    along = " by batch" if asked.along == Along.BATCHES else ""
    return (
        f"{trend.characteristic.in_full} of {asked.product}, {OF[asked.where]}{along}"
    )


def about(trend: Trend) -> str:
    """How many values, of when, and which limits: what the picture shows at a glance."""
    zone, found = site_zone(), trend.points
    many = "1 value" if len(found) == 1 else f"{len(found)} values"
    first, last = day(found[0].at, zone), day(found[-1].at, zone)
    when = first if first == last else f"{first} to {last}"
    told = [f"{many}, {when}."]
    beyond = sum(it.beside == "beyond" for it in found)
    span = trend.limits_today
    if span:
        held = limits(
            span.lower or None,
            span.upper or None,
            trend.characteristic.unit,
            signed=trend.characteristic.is_signed,
        )
        told.append(f"Limits today: {span.must or held}.")
    elif trend.spans:
        told.append("No limits today.")
    if trend.spans:
        told.append(f"Beyond the limits: {beyond}.")
    if len(found) > MOST_LINKS:
        told.append("So many points lead nowhere: ask for fewer days.")
    return " ".join([*told, "The table beneath has every value."])


def _upright(frame: Frame, trend: Trend) -> str:
    drawn = [
        f'<path class="base" d="M{LEFT} {TOP}V{BOTTOM}H{coordinate(frame.right)}"/>'
    ]
    for value, words in frame.upright.labels():
        y = coordinate(frame.y(value))
        drawn.append(f'<path class="base" d="M{LEFT} {y}h-6"/>')
        drawn.append(
            ink.label(LEFT - 10, words, anchor="end", y=round(frame.y(value) + 4))
        )
    unit = unit_shown(trend.characteristic.unit)
    return "".join(drawn) + ink.label(LEFT - 10, unit, anchor="end", y=TOP - 26)


def _across(frame: Frame) -> str:
    drawn = []
    for place, words in frame.across.labels(frame.right - frame.left):
        x = frame.x(place)
        drawn.append(f'<path class="base" d="M{coordinate(x)} {BOTTOM}v6"/>')
        drawn.append(ink.label(x, words, y=BOTTOM + 22))
    return "".join(drawn)
