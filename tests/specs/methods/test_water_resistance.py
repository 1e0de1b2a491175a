import pytest

from specs.methods.water_resistance import SCALE
from tests.specs.methods.bench import carried_out


def rated(mark, **parameters):
    return carried_out("resistance to standing water", {"rating": mark}, **parameters)


@pytest.mark.parametrize("mark", SCALE)
def test_each_rating_is_the_result(mark):
    outcome = rated(mark)

    assert (outcome.mark, outcome.value) == (mark, None)
    assert outcome.can_count


@pytest.mark.parametrize("mark", ["4", "-1", "1.5", "white"])
def test_a_mark_off_the_scale_is_named(mark):
    outcome = rated(mark)

    assert outcome.asks == (f"“{mark}” is no rating: choose 0 to 3.",)
    assert (outcome.complete, outcome.mark) == (False, "")


def test_the_temperature_is_awaited_where_it_is_asked_for():
    outcome = rated("1", asked="temperature")

    assert (outcome.complete, outcome.mark) == (False, "1")
    assert not outcome.can_count
