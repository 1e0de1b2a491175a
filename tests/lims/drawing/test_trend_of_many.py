"""Charts of very many values stay quick, and say where they no longer lead."""

import time

import pytest

from lims.drawing.trend import trend_chart
from tests.factories.charts import point, trend
from tests.lims.drawing.looking import every, text

pytestmark = pytest.mark.django_db  # the zone of the site


def test_three_thousand_points_are_drawn_in_half_a_second():
    found = trend(*(point(str(265 + it % 30), it) for it in range(3000)))
    begin = time.process_time()
    svg = trend_chart(found, address=lambda it: f"/lots/{it.batch}/")

    assert time.process_time() - begin < 0.5
    assert svg.count("<a ") == 3000


def test_of_very_many_points_only_dots_are_drawn_and_the_words_say_so():
    found = trend(*(point(str(265 + it % 30), it) for it in range(5001)))
    svg = trend_chart(found, address=lambda it: "/")

    assert "<a " not in svg
    (dots,) = every(svg, "path", "dots")
    assert dots.get("d").count("M") > 4000
    assert "So many points lead nowhere: ask for fewer days." in text(svg, "desc")
