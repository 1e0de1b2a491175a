"""A chart in a small picture: the points, today's limits, and the newest value."""

import datetime as dt

import pytest

from lims.drawing.small import small_chart
from lims.trends.asked import Source
from tests.factories.charts import COPPER, point, span, trend
from tests.lims.drawing.looking import every, one, root, text

pytestmark = pytest.mark.django_db  # the zone of the site


def dots(svg, kind):
    """The places of the dots of a kind."""
    (path,) = every(svg, "path", kind)
    assert "dots" in path.get("class")
    return path.get("d")[1:].removesuffix("h.01").split("h.01M")


def test_every_value_is_a_dot_and_the_newest_has_its_shape():
    svg = small_chart(
        trend(point("280"), point("281", 1, Source.HISTORY), point("282", 2))
    )

    assert len(dots(svg, "released")) == 2
    assert len(every(svg, "path", "history")) == 1
    newest = one(svg, "circle", "released")
    assert dots(svg, "released")[-1] == f"{newest.get('cx')} {newest.get('cy')}"


def test_values_of_one_place_are_one_dot():
    svg = small_chart(trend(point("280"), point("280"), point("281", 4)))

    assert len(dots(svg, "released")) == 2


def test_todays_limits_go_all_the_way_across():
    first = span("260", "300", until=dt.date(2026, 1, 6))
    spans = [first, span("265", "295", revision="6")]
    svg = small_chart(trend(point("280"), point("281", 9), spans=spans))

    assert [it.text for it in root(svg).iter("text")] == ["265", "295"]
    assert len(every(svg, "path", "limit")) == 2


def test_limits_that_have_ended_are_not_todays():
    ended = span(until=dt.date(2026, 1, 6))
    svg = small_chart(trend(point("280"), point("281", 9), spans=[ended]))

    assert every(svg, "path", "limit") == []
    assert list(root(svg).iter("text")) == []


def test_a_limit_on_one_side_is_one_line():
    svg = small_chart(trend(point("1a", of=COPPER), of=COPPER, spans=[span("", "1b")]))

    assert [it.text for it in root(svg).iter("text")] == ["1b"]


def test_it_is_a_picture_told_in_words():
    svg = small_chart(trend(point("280")))

    assert root(svg).get("role") == "img"
    assert text(svg, "title").startswith("Worked penetration")
    assert "1 value" in text(svg, "desc")


def test_without_limits_and_without_values():
    assert every(small_chart(trend(point("280"), spans=[])), "path", "limit") == []
    assert small_chart(trend()) == ""
