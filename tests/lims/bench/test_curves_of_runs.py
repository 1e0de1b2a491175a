"""The oxidation induction time at the bench: two runs a result, and more when they disagree."""

import pytest

from lims.bench.models import Determination, Test
from lims.bench.reporting import active_value
from tests.factories import curves, plant

State = Determination.State


@pytest.fixture
def induction(works):
    return curves.ask_for_induction()


def the_test():
    return plant.the_test(curves.INDUCTION)


def run(minutes, by, **more):
    return curves.carry_out(the_test(), curves.run_of(minutes), by=by, **more)


def sets():
    return [(it.state, it.by_rule) for it in the_test().determinations.all()]


# ---- Two runs a result


def test_one_run_alone_gives_no_result(induction, tech_a):
    run(23, tech_a)

    assert active_value(the_test()) is None
    assert the_test().asks == (
        "A second determination is asked for: the method takes two for a result."
    )


@pytest.mark.parametrize(
    ("one", "other", "reported"), [(23, 24, "23.5"), (12.0, 12.8, "12.4")]
)
def test_two_runs_give_their_mean_to_a_tenth_of_a_minute(
    induction, tech_a, one, other, reported
):
    run(one, tech_a)
    run(other, tech_a)

    value = active_value(the_test())
    assert value.reported == reported
    assert float(value.value) == pytest.approx((one + other) / 2, abs=0.01)
    assert the_test().state == Test.State.REPORTED
    assert value.rule.startswith("mean of two determinations")


def test_a_pair_within_its_determinability_stands_and_one_beyond_it_does_not(
    induction, tech_a
):
    """At 25 min the method allows 0.59 √25 = 2.95 min."""
    run(23.53, tech_a)
    run(26.47, tech_a)
    assert active_value(the_test()).reported == "25.0"


def test_a_pair_that_disagrees_asks_for_two_more(induction, tech_a):
    run(23.5, tech_a)
    run(26.5, tech_a)

    assert active_value(the_test()) is None
    assert sets() == [(State.SET_ASIDE, True)] * 2
    told = the_test().asks
    assert told.startswith(
        "Two fresh determinations are asked for: sets 1 and 2 differ"
    )
    assert "by 3, more than 2.95" in told
    assert "determinability" in str(the_test().figures)


def test_the_two_further_runs_are_the_result(induction, tech_a):
    for minutes in (23.5, 26.5, 25.0, 25.4):
        run(minutes, tech_a)

    assert active_value(the_test()).reported == "25.2"
    assert len(active_value(the_test()).sources) == 2
