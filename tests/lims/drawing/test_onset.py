"""The trace of a pressure DSC run: its curve, the two straight lines, and where they cross."""

import math

import pytest

from lims.drawing.onset import MOST_POINTS, Straight, onset, thinned
from tests.lims.drawing.looking import every, one, text

# a rise of 5 about minute 30: its tangent at the steepest crosses the base at 28
POINTS = [(it / 10, 0.1 + 5 / (1 + math.exp(30 - it / 10))) for it in range(601)]
BASE = Straight(0, 0.1)
TANGENT = Straight(1.25, 0.1 - 1.25 * 28)


def picture(**more):
    given = {
        "title": "Trace",
        "about": "Onset 28.0 min after oxygen was let in.",
        "points": POINTS,
        "base": BASE,
        "between": (2.0, 20.0),
        "tangent": TANGENT,
        "crossing": 28.0,
        "words": "28.0 min",
    }
    return onset(**given | more)


def test_the_two_lines_meet_at_the_mark():
    svg = picture()

    mark = one(svg, "circle", "pt")
    x, y = float(mark.get("cx")), float(mark.get("cy"))
    ends = [it.get("d")[1:].split("L") for it in every(svg, "path", "extended")]
    for start, end in ends:
        (x0, y0), (x1, y1) = (map(float, it.split()) for it in (start, end))
        at = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
        assert at == pytest.approx(y, abs=1.0)
    assert len(ends) == 2


def test_the_base_line_is_solid_where_it_was_fitted():
    d = one(picture(), "path", "fitted").get("d")

    start, end = d[1:].split("L")
    assert float(start.split()[0]) == pytest.approx(12 + 496 * 2 / 60, abs=0.1)
    assert float(end.split()[0]) == pytest.approx(12 + 496 * 20 / 60, abs=0.1)


def test_what_is_shown_is_told_in_words():
    svg = picture()

    assert text(svg, "desc") == "Onset 28.0 min after oxygen was let in."
    assert ">28.0 min</text>" in svg


def test_without_lines_the_trace_stands_alone():
    svg = picture(base=None, between=None, tangent=None, crossing=None)

    assert len(every(svg, "polyline", "line")) == 1
    assert not every(svg, "path", "extended")
    assert not every(svg, "circle", "pt")


def test_a_tangent_that_lies_flat_is_not_drawn():
    svg = picture(tangent=Straight(0, 1), base=None, between=None, crossing=None)

    assert not every(svg, "path", "extended")


def test_when_oxygen_was_let_in_is_marked_only_inside_the_trace():
    assert every(picture(admitted=5.0), "path", "now")
    assert not every(picture(admitted=-5.0), "path", "now")


def test_a_long_trace_is_thinned_and_keeps_its_peak():
    points = [(float(it), 0.0) for it in range(10_000)]
    points[7_777] = (7777.0, 9.0)

    kept = thinned(points)

    assert len(kept) <= MOST_POINTS
    assert (7777.0, 9.0) in kept
    assert kept == sorted(kept)


def test_a_short_trace_stays_as_it_is():
    assert thinned(POINTS[:20]) == POINTS[:20]


def test_one_point_is_no_trace():
    with pytest.raises(ValueError, match="two points or more"):
        onset(title="", about="", points=[(0.0, 1.0)])


def test_a_level_trace_can_be_drawn():
    assert "<polyline" in onset(title="", about="", points=[(0.0, 1.0), (1.0, 1.0)])
