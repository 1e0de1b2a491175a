"""Two runs of a dropping point further apart than the edition's r at their level: a repeat is demanded (ASTM D2265; r from memory: 6 °C from 221 to 277 °C)."""

import pytest

from lims.bench.actions import entering
from lims.bench.models import Determination
from lims.bench.reporting import active_value
from tests.factories import plant

CODE = "dropping-point-block"


def runs(by, *pairs):
    entering.record_condition(
        test=plant.the_test(CODE), key="apparatus", text="DP-01", by=by
    )
    for run, (observed, block) in enumerate(pairs, 1):
        for slot, text in ((f"observed_{run}", observed), (f"block_{run}", block)):
            entering.record_reading(
                test=plant.the_test(CODE), slot=slot, text=text, by=by
            )
    return plant.the_test(CODE).determinations.get()


def test_runs_further_apart_than_r_demand_a_repeat(tech_a):
    it = runs(tech_a, ("246", "288"), ("262", "288"))  # 260.0 and 270.7

    assert it.state == Determination.State.BEGUN
    assert it.asks[0] == (
        "Make two fresh runs: these differ by 10.67 °C, more than the method's r of 6."
    )
    assert active_value(plant.the_test(CODE)) is None
    assert [it["value"] for it in plant.the_test(CODE).figures] == ["6"]


def test_runs_within_r_are_reported_and_name_it(tech_a):
    runs(tech_a, ("264", "288"), ("262", "288"))

    value = active_value(plant.the_test(CODE))
    assert value.reported == "271"
    assert ("repeatability", "6") in [(it["what"], it["value"]) for it in value.figures]


@pytest.mark.parametrize(("second", "stands"), [("177", True), ("176", False)])
def test_r_is_that_of_the_level(tech_a, second, stands):
    """From 116 to 221 °C r is 8: 13 and 12 of the cup are 8.67 and 8.00 apart."""
    it = runs(tech_a, ("189", "232"), (second, "232"))

    assert (it.state == Determination.State.ACCEPTED) is stands


def test_a_corrected_run_is_reported(tech_a):
    runs(tech_a, ("246", "288"), ("262", "288"))

    entering.record_reading(
        test=plant.the_test(CODE),
        slot="observed_1",
        text="264",
        reason="figures exchanged",
        by=tech_a,
    )

    assert active_value(plant.the_test(CODE)).reported == "271"
    assert plant.the_test(CODE).figures == []
