import dataclasses
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.outcome import ParametersRefused
from specs.methods.penetration import PenetrationRefused, from_cones, slots
from specs.numbers import read
from tests.specs.methods.bench import at, bar_keys, carried_out, cones

NAME = "cone penetration"
UNWORKED = {"penetrometer": "PEN-01", "temperature": read("25.1")}
WORKED = {**UNWORKED, "strokes_end": at("2026-03-05 08:52:10")}
TIMES = {
    "cone_1": "2026-03-05 08:53:05",
    "cone_2": "2026-03-05 08:54:20",
    "cone_3": "2026-03-05 08:55:40",
}


def worked(*texts, conditions=WORKED, times=TIMES, **parameters):
    return carried_out(
        NAME, cones(*texts), times=times, conditions=conditions, **parameters
    )


@given(st.lists(st.decimals("0", "500", places=1), min_size=3, max_size=3))
def test_the_result_is_the_plain_mean_rounded_half_to_even(readings):
    found = from_cones(readings)

    assert found.mean == sum(map(Fraction, readings)) / 3
    assert found.reported == round(found.mean)
    assert found.spread == max(readings) - min(readings)


def test_unworked_273_and_two_thirds_is_reported_274():
    outcome = carried_out(
        NAME, cones("272", "274", "275"), conditions=UNWORKED, strokes="0"
    )

    assert outcome.value.value.quantize(Decimal("0.01")) == Decimal("273.67")
    assert outcome.reported.canonical == "274"
    assert outcome.can_count
    assert outcome.asks == ()


def test_a_worked_set_says_how_its_value_came_about():
    outcome = worked("279", "281", "280")

    assert outcome.reported.canonical == "280"
    assert outcome.says == "mean of 279, 281 and 280; spread 2"
    assert outcome.parts == {"mean": "280", "spread": "2", "spread_limit": "6"}
    assert outcome.can_count


def test_a_set_over_the_house_spread_is_not_accepted_and_asks_for_a_fresh_fill():
    outcome = worked("276", "284", "279")

    assert (outcome.complete, outcome.accepted, outcome.can_count) == (
        True,
        False,
        False,
    )
    assert outcome.reported.canonical == "280"
    assert outcome.value.value.quantize(Decimal("0.01")) == Decimal("279.67")
    assert outcome.asks[0].startswith("Take a fresh fill: the readings differ by 8,")


def test_a_spread_at_the_house_limit_is_accepted():
    assert worked("276", "282", "279").accepted
    assert not worked("276", "282", "279", spread_limit="5").accepted
    assert worked("276", "284", "279", spread_limit="8").accepted


@pytest.mark.parametrize(
    ("strokes", "limit"), [("0", "8"), ("60", "6"), ("10000", "10"), ("100000", "10")]
)
def test_each_kind_of_working_has_its_house_spread(strokes, limit):
    outcome = carried_out(NAME, cones("270", "270", "270"), strokes=strokes)

    assert outcome.parts["spread_limit"] == limit


def test_reduced_cones_are_converted_after_averaging():
    outcome = worked("64", "65", "65", scale="quarter")

    assert outcome.value.canonical == "266.5"
    assert outcome.reported.canonical == "266"
    assert worked("130", "130", "130", scale="half").reported.canonical == "265"


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_readings_give_no_value(count):
    outcome = worked(*["280"] * count)

    assert (outcome.complete, outcome.value, outcome.reported) == (False, None, None)
    assert outcome.says == f"{count} of 3 cone readings"


def test_more_than_three_readings_are_refused():
    with pytest.raises(PenetrationRefused, match="three cone readings, not 4"):
        from_cones([Decimal(280)] * 4)


def test_an_unknown_scale_is_refused():
    with pytest.raises(PenetrationRefused, match="name full, half or quarter"):
        from_cones([Decimal(280)], "eighth")
    with pytest.raises(ParametersRefused, match="choose one of full"):
        slots({"scale": "eighth"})


@pytest.mark.parametrize("temperature", ["24.4", "25.6", ">25", "0"])
def test_grease_outside_the_temperature_window_cannot_count(temperature):
    conditions = {**WORKED, "temperature": read(temperature)}

    outcome = worked("279", "281", "280", conditions=conditions)

    assert bar_keys(outcome) == ["temperature"]
    assert outcome.reported.canonical == "280"
    assert not outcome.can_count


@pytest.mark.parametrize("temperature", ["24.5", "25.5"])
def test_the_edges_of_the_temperature_window_count(temperature):
    conditions = {**WORKED, "temperature": read(temperature)}

    assert worked("279", "281", "280", conditions=conditions).can_count


@pytest.mark.parametrize("missing", ["temperature", "penetrometer", "strokes_end"])
def test_a_missing_condition_is_asked_for_and_leaves_it_incomplete(missing):
    conditions = {key: it for key, it in WORKED.items() if key != missing}

    outcome = worked("279", "281", "280", conditions=conditions)

    assert not outcome.complete
    assert not outcome.can_count
    assert len(outcome.asks) == 1
    assert outcome.reported.canonical == "280"


@pytest.mark.parametrize(
    ("first", "bars"),
    [
        ("2026-03-05 08:52:10", []),
        ("2026-03-05 08:55:10", []),
        ("2026-03-05 08:55:11", ["strokes_end"]),
        ("2026-03-05 08:52:09", ["strokes_end"]),
    ],
)
def test_the_first_worked_reading_comes_within_three_minutes(first, bars):
    times = {**TIMES, "cone_1": first, "cone_2": "2026-03-05 08:57:00"}

    assert bar_keys(worked("279", "281", "280", times=times)) == bars


def test_a_late_reading_is_told_how_late_it_is():
    times = dict.fromkeys(TIMES, "2026-03-05 08:56:20")

    (bar,) = worked("279", "281", "280", times=times).bars

    assert "4 min 10 s after the 60 strokes; the house allows 3 min." in bar.sentence


def test_a_reading_without_a_time_counts_as_read_now():
    assert bar_keys(worked("279", "281", "280", times={})) == ["strokes_end"]


@pytest.mark.parametrize("text", [">400", "<85", "0", "-5"])
def test_a_cone_reading_is_a_plain_number_above_nought(text):
    outcome = worked("279", text, "280")

    assert "reading" in bar_keys(outcome)
    assert not outcome.can_count


def test_an_implausible_reading_is_questioned_not_refused():
    outcome = worked("27.9", "28.1", "28")

    assert outcome.reported.canonical == "28"
    assert len(outcome.asks) == 3
    assert "27.9 0.1 mm, outside 85 to 500" in outcome.asks[0]


def test_an_outcome_is_not_changed_afterwards():
    with pytest.raises(dataclasses.FrozenInstanceError):
        worked("279", "281", "280").accepted = False
