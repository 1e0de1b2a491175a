from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.pressure import Point, PressureRefused, corrected, fall

HUNDRED = Decimal(100)


def log(*rows):
    return [Point(*(Decimal(each) for each in row.split())) for row in rows]


@given(st.lists(st.decimals(700, 800, places=1), min_size=1, max_size=8))
def test_the_fall_counts_from_the_highest_pressure_before(pressures):
    points = [Point(Decimal(hour), each) for hour, each in enumerate(pressures)]

    found = fall("kPa", [*points, Point(HUNDRED, Decimal(690))], HUNDRED)

    assert found.start == max(pressures)
    assert found.drop == max(pressures) - 690


def test_the_order_of_the_log_does_not_matter():
    rows = log("100 674", "0 760", "48 735")

    assert fall("kPa", rows, HUNDRED) == fall("kPa", rows[::-1], HUNDRED)


def test_a_reading_after_the_stated_hour_starts_nothing():
    assert fall("kPa", log("0 760", "100 674", "120 790"), HUNDRED).start == 760


def test_of_two_readings_as_near_the_earlier_stands():
    found = fall("kPa", log("0 758", "99.8 721", "100.2 720"), HUNDRED)

    assert found.drop == 37


@pytest.mark.parametrize(
    ("unit", "reported"), [("kPa", "12"), ("psi", "12.3"), ("bar", "12.35")]
)
def test_each_unit_is_reported_to_its_own_step(unit, reported):
    found = fall(unit, log("0 112.346", "100 100"), HUNDRED)

    assert str(found.reported) == reported


@pytest.mark.parametrize("hour", ["99.49", "100.51", "63"])
def test_a_reading_stands_only_for_its_own_hour(hour):
    with pytest.raises(PressureRefused, match="within half an hour of 100 h"):
        fall("kPa", log("0 758", f"{hour} 720"), HUNDRED)


def test_a_fall_needs_a_start_and_a_known_unit():
    with pytest.raises(PressureRefused, match="no pressure before"):
        fall("kPa", log("100 720"), HUNDRED)
    with pytest.raises(PressureRefused, match="use kPa, psi or bar"):
        fall("MPa", log("0 758", "100 720"), HUNDRED)


def test_a_correction_needs_reference_and_atmosphere():
    rows = log("0 110 99", "100 106.2 99.3")

    assert fall("psi", rows, HUNDRED, Decimal(99)).corrected_drop is None
    assert fall("psi", rows, HUNDRED, Decimal(99), Decimal("14.696")).corrected_drop


def test_a_correction_needs_a_temperature_above_absolute_zero():
    with pytest.raises(PressureRefused, match="no temperature"):
        corrected(Point(HUNDRED, Decimal(110)), Decimal(99), Decimal("14.696"))
    with pytest.raises(PressureRefused, match="below absolute zero"):
        corrected(*log("0 110 -273.15"), Decimal(99), Decimal("14.696"))


def test_at_the_reference_temperature_nothing_is_corrected():
    assert corrected(*log("0 110 99"), Decimal(99), Decimal("14.696")) == 110
