from fractions import Fraction

import pytest

from specs.methods.penetration import slots
from specs.methods.reduced import SCALES, conversion, converted
from specs.numbers import read
from tests.specs.methods.bench import at, bar_keys, carried_out, cones

CONDITIONS = {
    "penetrometer": "PEN-01",
    "temperature": read("25"),
    "strokes_end": at("2026-03-05 08:59"),
}


def reduced(*texts, scale="quarter", **parameters):
    return carried_out(
        "cone penetration",
        cones(*texts),
        conditions=CONDITIONS,
        scale=scale,
        **parameters,
    )


@pytest.mark.parametrize(
    ("scale", "reading", "full"),
    [
        ("quarter", "68", "279"),
        ("quarter", "64", "264"),
        ("quarter", "65", "267.75"),
        ("quarter", "47", "200.25"),
        ("half", "130", "265"),
        ("half", "140", "285"),
        ("half", "97", "199"),
        ("full", "280", "280"),
    ],
)
def test_a_mean_is_converted_to_the_full_scale_cone(scale, reading, full):
    assert converted(Fraction(reading), scale) == Fraction(full)
    assert (
        reduced(reading, reading, reading, scale=scale).value.value == read(full).value
    )


def test_what_was_read_is_never_the_result():
    outcome = reduced("64", "65", "65")

    assert outcome.value.canonical == outcome.parts["mean"] == "266.5"
    assert outcome.reported.canonical == "266"
    assert outcome.parts["mean_on_quarter_cone"].startswith("64.666666666")
    assert outcome.parts["conversion"] == "3.75 p + 24"
    assert outcome.parts["spread"] == "3.75"
    assert outcome.parts["spread_on_quarter_cone"] == "1"
    assert outcome.says == (
        "mean of 64, 65 and 65 on the quarter cone, to full scale by 3.75 p + 24; "
        "spread 1 on the quarter cone, for which no house limit is set"
    )


def test_the_house_limits_of_the_full_scale_cone_do_not_hold_for_a_reduced_one():
    wide = reduced("60", "68", "64")

    assert wide.accepted
    assert "spread_limit" not in wide.parts
    assert "no house limit is set" in wide.says
    assert not carried_out("cone penetration", cones("276", "284", "280")).accepted


def test_a_limit_stated_for_the_cone_that_is_read_holds():
    assert reduced("64", "66", "65", spread_limit="2").accepted
    over = reduced("64", "66.5", "65", spread_limit="2")

    assert not over.accepted
    assert over.parts["spread_limit"] == "2"
    assert "the readings differ by 2.5, more than the house limit of 2" in over.asks[0]
    assert "no house limit" not in over.says


def test_a_full_scale_set_has_no_parts_of_a_reduced_one():
    outcome = reduced("279", "281", "280", scale="full")

    assert outcome.parts == {"mean": "280", "spread": "2", "spread_limit": "6"}
    assert outcome.says == "mean of 279, 281 and 280; spread 2"


@pytest.mark.parametrize(
    ("scale", "readings", "bars"),
    [
        ("half", ("85", "85", "85"), []),
        ("half", ("84.9", "85", "85"), ["scale"]),
        ("half", ("190", "190", "190"), []),
        ("half", ("190", "190", "190.1"), ["scale"]),
        ("full", ("174", "174", "174"), []),
        ("full", ("400", "400", "400"), []),
    ],
)
def test_a_reduced_cone_counts_only_in_its_range(scale, readings, bars):
    outcome = reduced(*readings, scale=scale)

    assert bar_keys(outcome) == bars
    assert outcome.value is not None


def test_the_range_is_told():
    (bar,) = reduced("100", "100", "100").bars

    assert "399 on the full scale is outside 175 to 385" in bar.sentence
    assert bar.advice == "Take the full-scale cone."


def test_the_reading_names_its_cone():
    assert slots({"scale": "quarter"})[0].label == "Reading on the quarter cone 1"
    assert slots({"scale": "full"})[0].label == "Cone reading 1"


def test_each_conversion_is_told_in_words():
    assert conversion("half") == "2 p + 5"
    assert set(SCALES) == {"full", "half", "quarter"}
