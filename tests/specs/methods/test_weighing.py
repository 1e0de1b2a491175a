from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.specs.methods.bench import bar_keys, carried_out

GRAMS = st.decimals("0.1", "100", places=3)


def lost(before, after, tare="", **parameters):
    readings = {"before": before, "after": after, "tare": tare}
    readings = {key: text for key, text in readings.items() if text}
    return carried_out("loss by weighing", readings, **parameters)


def share(taken, found, **parameters):
    readings = {"taken": taken, "found": found}
    return carried_out("share by weighing", readings, **parameters)


def test_25000_g_less_24850_g_is_060_percent():
    outcome = lost("25.000", "24.850", step="0.01")

    assert outcome.value.canonical == "0.6"
    assert outcome.reported.canonical == "0.60"
    assert outcome.says == "0.15 g lost of 25 g"
    assert outcome.can_count


def test_the_empty_bearing_is_taken_off_both_masses():
    outcome = lost("106.520", "106.100", "102.520", weighed="with the empty cell")

    assert outcome.reported.canonical == "10.5"
    assert outcome.parts == {"grease": "4.000", "percent": "10.5"}


@given(GRAMS, GRAMS, GRAMS)
def test_the_tare_changes_nothing(tare, grease, less):
    before, after = grease + less, grease
    alone = lost(f"{before}", f"{after}")
    cell = lost(
        f"{before + tare}", f"{after + tare}", f"{tare}", weighed="with the empty cell"
    )

    assert cell.value == alone.value
    assert 0 < alone.value.value < 100


def test_nothing_lost_is_nought_and_all_lost_is_a_hundred():
    assert lost("25.000", "25.000").reported.canonical == "0.0"
    assert lost("25.000", "0").reported.canonical == "100.0"


@pytest.mark.parametrize(("before", "after"), [("25", ""), ("", "24"), ("", "")])
def test_one_mass_is_not_enough(before, after):
    outcome = lost(before, after)

    assert (outcome.complete, outcome.value) == (False, None)
    assert outcome.says.endswith("of 2 masses")


def test_with_a_cell_three_masses_are_needed():
    outcome = lost("25", "24", weighed="with the empty cell")

    assert outcome.says == "2 of 3 masses"


@pytest.mark.parametrize(
    ("before", "after", "tare", "words"),
    [
        ("24.850", "25.000", "", "the mass after the test is the greater"),
        ("0", "0", "", "must be above 0"),
        (">25", "24", "", "plain number"),
        ("25", "-1", "", "not below 0"),
        ("106", "101", "102", "not below 0"),
        ("101", "100", "102", "must be above 0"),
    ],
)
def test_masses_without_sense_are_stored_and_cannot_count(before, after, tare, words):
    weighed = "with the empty cell" if tare else "grease alone"
    outcome = lost(before, after, tare, weighed=weighed)

    assert bar_keys(outcome) == ["mass"]
    assert words in outcome.bars[0].sentence
    assert outcome.value is None


def test_oil_found_in_a_known_mass_of_grease():
    outcome = share("20.00", "0.37")

    assert outcome.value.value == Decimal("1.85")
    assert outcome.reported.canonical == "1.8"
    assert outcome.says == "0.37 g found in 20 g"


def test_more_found_than_taken_cannot_count():
    assert bar_keys(share("0.37", "20.00")) == ["mass"]
    assert share("20", "20").reported.canonical == "100.0"


def test_a_charge_outside_what_the_method_takes_is_questioned():
    packed = lost("4.20", "4.00", plausible="3.95 to 4.05")

    assert "outside 3.95 to 4.05" in packed.asks[0]
    assert packed.can_count
    assert lost("4.05", "4.00", plausible="3.95 to 4.05").asks == ()


def test_the_temperature_that_is_asked_for_is_awaited():
    outcome = share("20.00", "0.37", asked="temperature")

    assert not outcome.complete
    assert outcome.reported.canonical == "1.8"
