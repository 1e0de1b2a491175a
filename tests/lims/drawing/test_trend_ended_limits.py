"""Limits that a later revision no longer states: drawn as long as they held, and never called today's."""

import datetime as dt

import pytest

from lims.drawing.trend import about, trend_chart
from tests.factories.charts import point, span, trend
from tests.lims.drawing.looking import every

pytestmark = pytest.mark.django_db  # the zone of the site


def test_limits_that_have_ended_are_not_told_as_todays():
    ended = span(until=dt.date(2026, 1, 10))
    found = trend(point("280"), point("299", 9, beside="beyond"), spans=[ended])
    svg = trend_chart(found)

    assert "No limits today. Beyond the limits: 1." in about(found)
    assert len(every(svg, "path", "limit")) == 2
    assert every(svg, "text", "strong") == []  # no figure at the end of the paper
