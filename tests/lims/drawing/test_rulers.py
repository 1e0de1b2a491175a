"""The limit bar shows one value on its limits, and says so in words."""

import re
from typing import Any

import pytest

from lims.drawing.rulers import KEYS, key, limit_bar
from tests.lims.drawing.looking import every, one, root, text, tip

PENETRATION: dict[str, Any] = {
    "name": "Worked penetration",
    "lower": "265",
    "upper": "295",
}
EVERYTHING: dict[str, Any] = {
    **PENETRATION,
    "value": ">320",
    "verdict": "not met",
    "last": ("279", "279", "279", "279", "283"),
    "internal": ("270", "290"),
    "accept": ("268.56", "291.44"),
    "drops": ("276", "284"),
    "aside": ("270",),
    "other": True,
}


@pytest.mark.parametrize(("value", "x"), [("265", 62), ("295", 242), ("280", 152)])
def test_the_cone_stands_with_its_tip_at_the_value(value: str, x: float) -> None:
    svg = limit_bar(**PENETRATION, value=value, verdict="met")

    assert tip(svg) == (x, 18, "cone")


def test_the_zone_lies_between_the_limits_and_the_lines_stand_at_its_ends() -> None:
    svg = limit_bar(**PENETRATION)

    zone = one(svg, "rect", "zone")
    lines = [it.get("d", "") for it in every(svg, "path", "limit")]
    assert (zone.get("x"), zone.get("width")) == ("62", "180")
    assert [line.split()[0] for line in lines] == ["M62", "M242"]


@pytest.mark.parametrize(
    ("bounds", "x", "width"),
    [
        ({"upper": "70"}, "2", "240"),
        ({"upper": "30", "signed": True}, "2", "240"),
        ({"lower": "190", "span": "25"}, "62", "240"),
    ],
)
def test_the_zone_runs_to_the_end_on_the_open_side(
    bounds: dict[str, Any], x: str, width: str
) -> None:
    zone = one(limit_bar(**bounds), "rect", "zone")

    assert (zone.get("x"), zone.get("width")) == (x, width)


def test_the_limits_are_written_as_they_were_typed() -> None:
    svg = limit_bar(upper="0.50", language="de")

    assert one(svg, "text", "strong").text == "0,50"


def test_a_signed_limit_shows_its_sign_and_the_nought() -> None:
    svg = limit_bar(upper="30", signed=True)

    words = [it.text for it in root(svg).iter("text")]
    assert words == ["+30", "0"]


def test_the_verdict_alone_makes_the_cone_red() -> None:
    outside = limit_bar(**PENETRATION, value="297", verdict="")
    inside = limit_bar(**PENETRATION, value="293", verdict="not met")

    assert tip(outside)[2] == "cone"
    assert tip(inside)[2] == "cone out"


def test_a_value_of_another_batch_is_hollow_and_says_so() -> None:
    svg = limit_bar(upper="70", value="38", verdict="met", other=True, name="Oxidation")

    assert tip(svg)[2] == "cone other"
    assert text(svg, "title") == "Oxidation 38 (from another batch), at most 70"


@pytest.mark.parametrize(("value", "x"), [("340", 302), ("200", 2)])
def test_off_the_scale_the_ruler_breaks_and_the_limits_stay(
    value: str, x: float
) -> None:
    svg = limit_bar(**PENETRATION, value=value, verdict="not met")

    assert tip(svg)[0] == x
    assert len(every(svg, "path", "cut")) == 1
    assert len(every(svg, "path", "limit")) == 2


@pytest.mark.parametrize(("value", "way"), [(">280", "h20"), ("<280", "h-20")])
def test_the_arrow_says_on_which_side_the_true_value_lies(value: str, way: str) -> None:
    svg = limit_bar(**PENETRATION, value=value)

    assert tip(svg)[0] == 152
    assert way in one(svg, "path", "lies").get("d", "")


def test_inside_the_limits_but_outside_the_internal_band_is_hatched() -> None:
    svg = limit_bar(**PENETRATION, internal=("270", "290"))

    bands = [(it.get("x"), it.get("width")) for it in every(svg, "rect", "guard")]
    assert bands == [("62", "30"), ("212", "30")]
    assert len(every(svg, "path", "hatch")) == 2
    assert "internal band 270 to 290" in text(svg, "desc")


def test_no_stroke_of_the_hatching_leaves_its_band() -> None:
    svg = limit_bar(**PENETRATION, internal=("270", None))

    strokes = one(svg, "path", "hatch").get("d", "")
    places = [float(x) for x in re.findall(r"[ML](-?[\d.]+) ", strokes)]
    assert min(places) >= 62
    assert max(places) <= 92


def test_a_decision_rule_narrows_the_zone_and_is_not_hatched() -> None:
    svg = limit_bar(**PENETRATION, accept=("268.56", "291.44"))

    zone = one(svg, "rect", "zone")
    assert (zone.get("x"), zone.get("width")) == ("83.4", "137.3")
    assert not every(svg, "path", "hatch")
    assert len(every(svg, "path", "guard-edge")) == 2
    assert [it.get("d", "").split()[0] for it in every(svg, "path", "limit")] == [
        "M62",
        "M242",
    ]


def test_one_end_of_a_zone_leaves_the_open_side_open() -> None:
    svg = limit_bar(lower="190", value="202", verdict="met", accept=("193.55", None))

    zone = one(svg, "rect", "zone")
    assert float(zone.get("x")) > 62
    assert float(zone.get("x")) + float(zone.get("width")) == 302
    assert len(every(svg, "path", "guard-edge")) == 1


def test_a_wider_zone_is_hatched_within_the_limits_only() -> None:
    svg = limit_bar(**PENETRATION, accept=("262", "298"), internal=("270", "290"))

    guards = [
        (float(it.get("x")), float(it.get("x")) + float(it.get("width")))
        for it in every(svg, "rect", "guard")
    ]
    assert guards == [(62, 92), (212, 242)]
    assert float(one(svg, "rect", "zone").get("x")) < 62


def test_inside_the_limits_the_cone_is_red_when_its_rule_does_not_accept() -> None:
    svg = limit_bar(
        **PENETRATION, value="292", verdict="not met", accept=("268.55", "291.45")
    )

    assert tip(svg)[2] == "cone out"
    assert "The decision rule accepts 268.55 to 291.45." in svg


def test_readings_of_a_set_are_lines_and_those_set_aside_are_dotted() -> None:
    svg = limit_bar(**PENETRATION, drops=("276", "284", "279"), aside=("270",))

    assert len(every(svg, "path", "drop")) == 4
    assert len(every(svg, "path", "aside")) == 1
    assert text(svg, "desc") == "Readings 276, 284, 279. Set aside 270."


def test_only_the_last_ten_lots_are_shown_and_equal_ones_do_not_touch() -> None:
    svg = limit_bar(**PENETRATION, last=[str(270 + n) for n in range(12)])

    dots = [
        (float(it.get("cx", 0)), float(it.get("cy", 0)))
        for it in every(svg, "circle", "past")
    ]
    assert len(dots) == 10
    assert all(
        abs(a[0] - b[0]) >= 4.3 or abs(a[1] - b[1]) >= 4.3
        for n, a in enumerate(dots)
        for b in dots[n + 1 :]
    )


def test_many_equal_lots_stand_as_a_block_three_high() -> None:
    svg = limit_bar(**PENETRATION, last=["280"] * 10)

    dots = every(svg, "circle", "past")
    assert len(dots) == 10
    assert len({it.get("cy") for it in dots}) == 3


def test_a_requirement_without_a_limit_has_no_bar() -> None:
    assert limit_bar(name="Unworked penetration", value="274") == ""


def test_the_title_tells_value_limits_and_the_range_of_the_last_lots() -> None:
    shown: dict[str, Any] = {
        **PENETRATION,
        "value": "281",
        "last": ("274", "286", "279"),
    }

    english = text(limit_bar(**shown, unit="0.1 mm"), "title")
    german = text(limit_bar(**shown, language="de"), "title")
    assert english == (
        "Worked penetration 281\u00a0×\u00a00.1\u00a0mm, 265 to 295; last 3 lots 274 to 286"
    )
    assert german == "Worked penetration 281, 265 bis 295; letzte 3 Lose 274 bis 286"


def test_words_given_to_a_drawing_are_escaped() -> None:
    svg = limit_bar(**{**PENETRATION, "name": "<script>&"}, value="280")

    assert "<script>" not in svg
    assert text(svg, "title").startswith("<script>& 280")


@pytest.mark.parametrize(
    "svg",
    [
        limit_bar(**EVERYTHING),
        limit_bar(**EVERYTHING, small=True),
    ],
    ids=["bar", "small bar"],
)
def test_every_drawing_says_itself_in_words_and_has_no_inline_style(svg: str) -> None:
    drawn = root(svg)

    assert drawn.get("role") == "img"
    assert drawn[0].tag == "title"
    assert drawn[0].text
    assert "style=" not in svg
    assert "<style" not in svg


@pytest.mark.parametrize("kind", sorted(KEYS))
def test_a_key_shows_one_sign_and_hides_from_readers(kind: str) -> None:
    drawn = root(key(kind))

    assert drawn.get("aria-hidden") == "true"
    assert len(drawn) >= 1
