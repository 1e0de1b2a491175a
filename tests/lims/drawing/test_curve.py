"""A vessel's pressure, drawn downwards as the gauge moves."""

from lims.drawing.curve import Vessel, curve
from tests.lims.drawing.looking import every, one, root, text


def pressure() -> str:
    return curve(
        title="Oxidation",
        about="OX-1 has fallen 25 kPa after 48 h.",
        hours=100,
        limit="70",
        vessels=(
            Vessel("OX-1", ((0, 0), (48, 25)), ((48, 25),)),
            Vessel("OX-2", ((0, 0), (48, "22.8"))),
        ),
        last=(36, 38, 38),
        now=63,
        to_come=(72, 100),
    )


def test_a_curve_falls_as_the_pressure_falls() -> None:
    svg = pressure()

    lines = [it.get("points") for it in every(svg, "polyline", "line")]
    assert lines == ["30,24 167.3,73.4", "30,24 167.3,69.1"]
    assert one(svg, "path", "limit").get("d") == "M30 162.4H316"
    assert len(every(svg, "circle", "slot")) == 2
    assert text(svg, "desc") == "OX-1 has fallen 25 kPa after 48 h."


def test_the_names_of_two_lines_stand_apart() -> None:
    svg = pressure()

    places = {
        it.text: float(it.get("y", 0))
        for it in root(svg).iter("text")
        if it.text in {"OX-1", "OX-2"}
    }
    assert places["OX-1"] - places["OX-2"] > 12


def test_a_curve_deepens_with_a_fall_beyond_its_limit() -> None:
    svg = curve(
        title="",
        about="",
        hours=24,
        limit=20,
        vessels=[Vessel("A", ((0, 0), (24, 95)))],
    )

    assert one(svg, "polyline", "line").get("points", "").split()[-1] == "316,193.1"


def test_a_curve_says_itself_in_words_and_has_no_inline_style() -> None:
    svg = pressure()

    assert root(svg).get("role") == "img"
    assert text(svg, "title") == "Oxidation"
    assert "style=" not in svg
