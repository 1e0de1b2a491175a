from decimal import Decimal

import pytest

from specs.methods.oxidation import conditions, due_at, slots
from tests.specs.methods.bench import at, bar_keys, carried_out

NAME = "oxidation, pressure vessel"
DUE = "2026-04-13 19:00"
CONDITIONS = {
    "started_at": at("2026-04-09 15:00"),
    "vessel_1": "OX-1",
    "unit_1": "kPa",
    "vessel_2": "OX-2",
    "unit_2": "psi",
}
READINGS = {
    "maximum_1": "760",
    "at_24_1": "748",
    "at_48_1": "735",
    "at_72_1": "712",
    "at_100_1": "674",
    "maximum_2": "109.6",
    "at_100_2": "97.4",
}


def oxidation(readings=READINGS, now=DUE, conditions=CONDITIONS, **more):
    return carried_out(NAME, readings, now=now, conditions=conditions, **more)


def test_two_vessels_in_different_units_give_their_mean_in_kpa():
    outcome = oxidation()

    assert outcome.parts["drop_kPa_1"] == "86"
    assert Decimal(outcome.parts["drop_kPa_2"]).quantize(Decimal("0.1")) == Decimal(
        "84.1"
    )
    assert outcome.value.value.quantize(Decimal("0.01")) == Decimal("85.06")
    assert outcome.reported.canonical == "85"
    assert outcome.says == (
        "mean fall of 86 kPa and 12.2 psi (84.12 kPa); difference 1.88 kPa"
    )
    assert outcome.can_count
    assert outcome.asks == ()


def test_one_vessel_is_enough_when_the_method_is_set_so():
    outcome = oxidation(vessels="1")

    assert outcome.reported.canonical == "86"
    assert outcome.says == "fall of 86 kPa"
    assert outcome.can_count


def test_the_reading_is_due_after_the_stated_hours():
    assert due_at(at("2026-04-09 15:00"), {}) == at(DUE)
    assert due_at(at("2026-04-09 15:00"), {"hours": "200"}) == at("2026-04-17 23:00")


def test_before_the_stated_hour_there_is_no_value_and_the_due_time_is_told():
    early = {key: it for key, it in READINGS.items() if "100" not in key}

    outcome = oxidation(early, now="2026-04-12 06:00")

    assert (outcome.complete, outcome.value, outcome.reported) == (False, None, None)
    assert outcome.asks == ("The reading at 100 h is due Mon 13 April 19:00.",)


def test_with_one_vessel_still_to_read_there_is_no_value():
    partly = {key: it for key, it in READINGS.items() if key != "at_100_2"}

    outcome = oxidation(partly)

    assert outcome.value is None
    assert outcome.says == "1 of 2 vessels read at the stated hour"
    assert outcome.parts["drop_1"] == "86"


@pytest.mark.parametrize(
    ("when", "is_barred"),
    [
        ("2026-04-13 18:30", False),
        ("2026-04-13 19:30", False),
        ("2026-04-13 18:29:59", True),
        ("2026-04-13 19:31", True),
        ("2026-04-12 06:00", True),
    ],
)
def test_a_reading_counts_within_half_an_hour_of_the_stated_hour(when, is_barred):
    outcome = oxidation(now=when)

    assert bar_keys(outcome) == (["hour_1", "hour_2"] if is_barred else [])
    assert outcome.reported.canonical == "85"
    assert outcome.can_count is not is_barred


def test_a_late_reading_keeps_its_own_hour():
    times = {"at_100_1": "2026-04-13 20:15", "at_100_2": "2026-04-13 19:10"}

    (bar,) = oxidation(times=times).bars

    assert bar.key == "hour_1"
    assert "was read at 101.2 h, which does not stand for 100 h" in bar.sentence


def test_the_fall_counts_from_the_plateau_not_from_a_lower_maximum():
    outcome = oxidation({**READINGS, "at_24_1": "764"})

    assert outcome.parts["start_1"] == "764"
    assert outcome.parts["drop_1"] == "90"
    assert "above its maximum: the fall is counted from 764 kPa" in outcome.asks[0]


@pytest.mark.parametrize(
    ("maximum", "unit", "is_doubted"),
    [
        ("744", "kPa", False),
        ("772", "kPa", False),
        ("740", "kPa", True),
        ("780", "kPa", True),
        ("108", "psi", False),
        ("112", "psi", False),
        ("7.6", "bar", False),
    ],
)
def test_a_start_away_from_the_methods_is_questioned(maximum, unit, is_doubted):
    readings = {"maximum_1": maximum}

    outcome = oxidation(
        readings, conditions={**CONDITIONS, "unit_1": unit}, vessels="1"
    )

    assert any("758 ± 14 kPa" in ask for ask in outcome.asks) is is_doubted


@pytest.mark.parametrize(
    ("maximum", "unit", "told"),
    [
        ("109.6", "kPa", "109.6 kPa is no start pressure"),
        ("760", "psi", "5240.02 kPa is no start pressure"),
        ("7.6", "kPa", "is the gauge in psi or bar?"),
        ("760", "bar", "is the gauge in kPa or psi?"),
        ("689.9", "kPa", "(758 ± 14 kPa at the start)"),
        ("830.1", "kPa", "830.1 kPa"),
    ],
)
def test_what_can_be_no_start_pressure_cannot_count(maximum, unit, told):
    outcome = oxidation(
        {**READINGS, "maximum_1": maximum},
        conditions={**CONDITIONS, "unit_1": unit},
        vessels="1",
    )

    (bar,) = (bar for bar in outcome.bars if bar.key == "start")
    assert told in bar.sentence
    assert not outcome.can_count


@pytest.mark.parametrize("maximum", ["690", "830"])
def test_the_window_of_a_start_pressure_includes_its_ends(maximum):
    assert oxidation({"maximum_1": maximum}, vessels="1").bars == ()


@pytest.mark.parametrize("name", ["OX-1", "ox-1 "])
def test_one_vessel_does_not_stand_for_two(name):
    outcome = oxidation(conditions={**CONDITIONS, "vessel_2": name})

    assert bar_keys(outcome) == ["vessels"]
    assert "OX-1 is named for both vessels" in outcome.bars[0].sentence
    assert not outcome.can_count


@pytest.mark.parametrize("missing", ["started_at", "vessel_1", "vessel_2"])
def test_a_missing_condition_leaves_it_incomplete(missing):
    outcome = oxidation(
        conditions={key: it for key, it in CONDITIONS.items() if key != missing}
    )

    assert not outcome.complete
    assert outcome.reported.canonical == "85"
    assert len(outcome.asks) == 1


def test_an_unknown_gauge_unit_gives_no_value():
    outcome = oxidation(conditions={**CONDITIONS, "unit_2": "atm"})

    assert outcome.value is None
    assert "Gauge of vessel 2 is still to be given." in outcome.asks


def test_a_bound_is_no_pressure():
    outcome = oxidation({**READINGS, "at_100_1": "<674"})

    assert "reading" in bar_keys(outcome)
    assert outcome.value is None


def test_the_slots_stand_row_by_row_in_the_order_of_reading():
    keys = [slot.key for slot in slots({})]

    assert keys == [
        f"{row}_{vessel}"
        for row in ("maximum", "at_24", "at_48", "at_72", "at_100")
        for vessel in (1, 2)
    ]
    assert [slot.optional for slot in slots({"vessels": "1"})] == [
        False,
        True,
        True,
        True,
        False,
    ]


def test_hours_between_lie_before_the_stated_hour():
    found = slots({"hours": "48", "interim": "0 24 48 72", "vessels": "1"})

    assert [slot.key for slot in found] == ["maximum_1", "at_24_1", "at_48_1"]


def test_each_vessel_names_its_gauge():
    assert [each.key for each in conditions({})] == list(CONDITIONS)
