"""Prolonged working and the oxygen vessel: counted from the stored start, never judged early."""

import datetime as dt
from decimal import Decimal

import pytest

from lims.bench.actions import entering
from lims.bench.evaluation import held
from lims.bench.models import Condition, Determination, Test
from lims.bench.reporting import active_value
from lims.bench.running import run_of
from lims.methods.models import Characteristic
from lims.record import clock
from tests.factories import plant

PROLONGED = "prolonged-penetration-100000"
OXIDATION = "oxidation-drop"


def start_strokes(by, at="2026-03-05 09:00"):
    clock.set_to(plant.at(at))
    for key, text in (("worker", "W-2"), ("started_at", at)):
        entering.record_condition(
            test=plant.the_test(PROLONGED), key=key, text=text, by=by
        )


def read_cones(by, at, counter=""):
    clock.set_to(plant.at(at))
    conditions = [("penetrometer", "PEN-01"), ("temperature", "25.0")]
    if counter:
        conditions.append(("counter", counter))
    for key, text in conditions:
        entering.record_condition(
            test=plant.the_test(PROLONGED), key=key, text=text, by=by
        )
    entering.record_condition(
        test=plant.the_test(PROLONGED), key="strokes_end", text=at, by=by
    )
    for slot, text in (("cone_1", "301"), ("cone_2", "303"), ("cone_3", "302")):
        entering.record_reading(
            test=plant.the_test(PROLONGED), slot=slot, text=text, by=by
        )
    return Determination.objects.get(test=plant.the_test(PROLONGED))


def test_a_started_run_says_when_it_ends(tech_a):
    start_strokes(tech_a)

    determination = Determination.objects.get(test=plant.the_test(PROLONGED))
    assert determination.ends_at == plant.at("2026-03-06 12:46:40")
    assert plant.the_test(PROLONGED).state == Test.State.RUNNING


def test_how_far_a_run_has_come(tech_a):
    start_strokes(tech_a)
    determination = Determination.objects.get(test=plant.the_test(PROLONGED))
    run = run_of(determination.test.characteristic, held(determination).conditions)

    assert round(run.done_at(plant.at("2026-03-05 11:20"))) == 8400
    assert run.done_at(plant.at("2026-03-09 11:20")) == Decimal(100_000)


def test_readings_before_the_strokes_can_have_ended_are_stored_and_barred(tech_a):
    start_strokes(tech_a)

    determination = read_cones(tech_a, "2026-03-06 08:48")

    assert determination.readings.count() == 3
    assert "cannot have ended before" in determination.bars[0]["sentence"]
    assert active_value(plant.the_test(PROLONGED)) is None


def test_between_the_fastest_and_the_nominal_end_the_counter_is_asked_for(tech_a):
    start_strokes(tech_a)

    determination = read_cones(tech_a, "2026-03-06 10:00")

    assert determination.bars[0]["key"] == "counter"


def test_the_counter_shows_that_the_strokes_were_done(tech_a):
    start_strokes(tech_a)

    determination = read_cones(tech_a, "2026-03-06 10:00", counter="100020")

    assert determination.bars == []
    assert active_value(plant.the_test(PROLONGED)).reported == "302"


def test_a_corrected_start_lets_the_readings_count(tech_a):
    start_strokes(tech_a)
    read_cones(tech_a, "2026-03-06 10:00")

    entering.record_condition(
        test=plant.the_test(PROLONGED),
        key="started_at",
        text="2026-03-05 06:00",
        reason="started by the night shift, written in the worker's book",
        by=tech_a,
    )

    assert active_value(plant.the_test(PROLONGED)).reported == "302"


def pressures(by, hours, kpa, psi):
    for slot, text in ((f"{hours}_1", kpa), (f"{hours}_2", psi)):
        entering.record_reading(
            test=plant.the_test(OXIDATION, "0440"), slot=slot, text=text, by=by
        )


@pytest.fixture
def vessel(tech_a):
    """The fifth journey's batch: two vessels, one in kPa, one in psi, started Thursday 15:00."""
    story = plant.story("0440", product="LC2", retain="R-12-60", tests={})
    plant.play(story, until="2026-04-09 15:00")
    for key, text in (
        ("vessel_1", "OX-1"),
        ("unit_1", "kPa"),
        ("vessel_2", "OX-2"),
        ("unit_2", "psi"),
        ("started_at", "2026-04-09 15:00"),
    ):
        entering.record_condition(
            test=plant.the_test(OXIDATION, "0440"), key=key, text=text, by=tech_a
        )
    clock.set_to(plant.at("2026-04-09 20:00"))
    pressures(tech_a, "maximum", "760", "109.6")
    return tech_a


def test_the_drop_is_the_mean_of_the_vessels_in_kpa(vessel):
    clock.set_to(plant.at("2026-04-13 19:00"))

    pressures(vessel, "at_100", "674", "97.4")

    value = active_value(plant.the_test(OXIDATION, "0440"))
    assert value.reported == "85"
    assert value.value.startswith("85.05")


def test_no_verdict_before_the_hours_have_passed(vessel):
    clock.set_to(plant.at("2026-04-13 15:00"))

    pressures(vessel, "at_100", "674", "97.4")

    determination = Determination.objects.get(test=plant.the_test(OXIDATION, "0440"))
    assert determination.bars != []
    assert active_value(plant.the_test(OXIDATION, "0440")) is None


def test_a_hundred_hours_are_a_hundred_hours_over_the_change_of_the_clocks(tech_a):
    story = plant.story("0450", product="LC2", retain="R-12-61", tests={})
    plant.play(story, until="2026-03-27 12:00")

    entering.record_condition(
        test=plant.the_test(OXIDATION, "0450"),
        key="started_at",
        text="2026-03-27 12:00",
        by=tech_a,
    )

    determination = Determination.objects.get(test=plant.the_test(OXIDATION, "0450"))
    assert determination.ends_at - determination.started_at == dt.timedelta(hours=100)
    assert determination.ends_at == plant.at("2026-03-31 17:00")


def test_hours_that_no_binary_number_holds_end_on_the_whole_second(tech_a):
    start_strokes(tech_a)
    determination = Determination.objects.get(test=plant.the_test(PROLONGED))
    timed = determination.test.characteristic
    timed.parameters = {"hours": "0.7"}

    run = run_of(timed, held(determination).conditions)

    assert run.ends_at - run.started_at == dt.timedelta(seconds=2520)


def test_one_vessel_named_twice_gives_no_verdict(vessel):
    entering.record_condition(
        test=plant.the_test(OXIDATION, "0440"),
        key="vessel_2",
        text="OX-1",
        reason="noted wrongly",
        by=vessel,
    )
    clock.set_to(plant.at("2026-04-13 19:00"))

    pressures(vessel, "at_100", "674", "97.4")

    determination = Determination.objects.get(test=plant.the_test(OXIDATION, "0440"))
    assert [bar["key"] for bar in determination.bars] == ["vessels"]
    assert active_value(plant.the_test(OXIDATION, "0440")) is None


@pytest.mark.parametrize(
    ("rest", "ends"), [("24", "2026-03-06 09:00"), ("0,5", "2026-03-05 09:30")]
)
def test_a_rest_is_counted_in_hours_from_the_end_of_the_strokes(rest, ends):
    rested = Characteristic(parameters={"strokes": "100000", "rest": rest})
    began = Condition(value=plant.at("2026-03-05 09:00").isoformat())

    run = run_of(rested, {"started_at": began})

    assert (run.unit, run.ends_at) == ("h", plant.at(ends))
