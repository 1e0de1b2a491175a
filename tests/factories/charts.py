"""Charts made by hand, without a database: points, series, limits."""

import datetime as dt

from lims.methods.models import Characteristic
from lims.trends.asked import Asked, Point, Series, Source, Span, Trend
from lims.trends.summing import summed_up
from lims.trends.telling import said

FIRST = dt.datetime(2026, 1, 5, 12, tzinfo=dt.UTC)
PENETRATION = Characteristic(
    code="worked-penetration",
    name="Worked penetration",
    conditions="60 double strokes",
    unit="0.1 mm",
    procedure="cone penetration",
)
COPPER = Characteristic(
    code="copper-strip", name="Copper strip", kind="rating", procedure="copper strip"
)
CHANGE = Characteristic(
    code="penetration-change-100000",
    name="Change of penetration",
    unit="0.1 mm",
    procedure="penetration change",
    is_signed=True,
)
WELD = Characteristic(
    code="four-ball-weld",
    name="Weld load",
    unit="kgf",
    kind="ladder",
    procedure="load of a ladder",
)


def point(value, days=0, source=Source.RELEASED, of=PENETRATION, **more):
    """A value so many days after the first Monday of 2026."""
    given = {
        "batch": f"Q1-26-{400 + days:04d}",
        "lot": "",
        "at": FIRST + dt.timedelta(days=days),
    } | more
    return Point(value=value, said=said(value, of), source=source, **given)


def series(*points, of=PENETRATION):
    """The series of some points of one source."""
    return Series(points[0].source, points, summed_up(points, of))


def span(lower="265", upper="295", since=dt.date(2026, 1, 1), until=None, **more):
    """The limits of a revision."""
    given = {"revision": "5", "since": since, "until": until} | more
    return Span(lower=lower, upper=upper, **given)


def trend(*points, of=PENETRATION, spans=None, **asked):
    """A chart of these points, a series of each source."""
    sources = [it for it in Source if any(p.source == it for p in points)]
    return Trend(
        Asked("LX2", of.code, **asked),
        of,
        tuple(series(*(p for p in points if p.source == it), of=of) for it in sources),
        (span(),) if spans is None else tuple(spans),
        (),
    )
