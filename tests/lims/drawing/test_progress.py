"""Ratings in equal steps, and tests that run by the clock or the counter."""

import pytest

from lims.drawing.progress import progress, rating_bar
from tests.lims.drawing.looking import every, one, root, text, tip


def test_a_rating_has_its_limit_behind_the_last_allowed_step() -> None:
    svg = rating_bar(
        limit="1b", value="1a", verdict="met", last=["1a"] * 8, name="Copper strip"
    )

    assert tip(svg)[0] == 14.5
    assert one(svg, "path", "limit").get("d", "").split()[0] == "M52"
    assert len(every(svg, "circle", "past")) == 8
    assert text(svg, "title") == "Copper strip 1a, at most 1b"


def test_a_rating_that_is_not_met_is_red_and_an_unknown_one_has_no_cone() -> None:
    assert tip(rating_bar(limit="1b", value="3a", verdict="not met"))[2] == "cone out"
    assert not every(rating_bar(limit=None, value="?"), "path", "cone")


def test_a_running_test_is_steel_up_to_now_with_a_dot_for_each_reading() -> None:
    svg = progress(
        title="Oxidation, 63 of 100 hours",
        total=100,
        done=63,
        major=10,
        minor=2,
        labels=((0, "0"), (100, "100 h")),
        slots=((24, True), (72, False)),
    )

    assert one(svg, "rect", "done").get("width") == "189"
    assert tip(svg)[2] == "cone run"
    assert len(every(svg, "circle", "slot")) == 2
    assert len(every(svg, "circle", "full")) == 1
    anchors = [it.get("text-anchor") for it in root(svg).iter("text")]
    assert anchors == ["start", "end"]


def test_a_test_that_ran_too_long_stays_on_its_ruler() -> None:
    svg = progress(title="", total=100, done=140, major=10, minor=5)

    assert tip(svg)[0] == 302


@pytest.mark.parametrize(
    "svg",
    [
        rating_bar(limit="1b", value="1a", name="Copper strip", last=("1a", "1b")),
        progress(title="Strokes", total=100_000, done=0, major=10_000, minor=2_000),
    ],
    ids=["rating", "progress"],
)
def test_a_ruler_says_itself_in_words_and_has_no_inline_style(svg: str) -> None:
    assert root(svg).get("role") == "img"
    assert text(svg, "title")
    assert "style=" not in svg
