"""A logged signal: its ends lie on the axes, no peak is lost, and it is told in words."""

import re
from xml.etree import ElementTree as ET

import pytest

from lims.drawing.logs import BOTTOM, LEFT, MOST_POINTS, RIGHT, TOP, logged


def drawn(points, unit="kPa"):
    return logged(title="Vessel 3 <A>", about="Falls & ends.", points=points, unit=unit)


def line_of(picture):
    found = re.search(r'<polyline class="line" points="([^"]*)"', picture)
    return [tuple(map(float, it.split(","))) for it in found[1].split()]


def labels(picture):
    return re.findall(r"<text[^>]*>([^<]*)</text>", picture)


def test_it_is_a_picture_with_title_and_words() -> None:
    picture = ET.fromstring(drawn([(0, 760), (10, 755)]))  # noqa: S314 - our own

    assert picture.find("title").text == "Vessel 3 <A>"
    assert picture.find("desc").text == "Falls & ends."
    assert picture.get("role") == "img"


def test_time_runs_from_edge_to_edge_and_higher_stands_higher() -> None:
    line = line_of(drawn([(0, 100), (50, 300), (100, 200)]))

    assert [x for x, _ in line] == [LEFT, (LEFT + RIGHT) / 2, RIGHT]
    high, middle, low = line[1][1], line[2][1], line[0][1]
    assert TOP < high < middle < low < BOTTOM
    assert middle - high == pytest.approx(low - middle)


def test_a_short_log_counts_minutes_and_a_long_one_hours() -> None:
    assert "minutes" in labels(drawn([(0, 1), (180, 2)]))

    long = labels(drawn([(0, 758), (6000, 720)]))
    assert "hours" in long
    assert "100" in long


def test_the_unit_and_round_values_stand_at_the_axis() -> None:
    told = labels(drawn([(0, 720), (100, 758)]))

    assert "kPa" in told
    assert {"720", "730", "740", "750"} <= set(told)


def test_a_peak_of_one_reading_among_many_is_drawn() -> None:
    points = [(minute, 100.0) for minute in range(50_000)]
    points[33_333] = (33_333, 250.0)

    line = line_of(drawn(points))

    assert len(line) <= MOST_POINTS + 1
    assert min(y for _, y in line) < (TOP + BOTTOM) / 2


def test_a_steady_signal_is_drawn_in_the_middle() -> None:
    assert {y for _, y in line_of(drawn([(0, 99), (60, 99)]))} == {(TOP + BOTTOM) / 2}


@pytest.mark.parametrize("points", [[], [(0, 1)], [(0, 1), (0, 2)]])
def test_what_is_no_curve_is_not_drawn(points) -> None:
    with pytest.raises(ValueError, match="two points"):
        drawn(points)
