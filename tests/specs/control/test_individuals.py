"""The chart of individuals against published figures."""

from decimal import Decimal

import pytest

from specs.control.individuals import individuals, own_deviation
from specs.control.reference import ControlRefused

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flow rate of ten batches.
FLOW = [
    Decimal(it)
    for it in (
        "49.6",
        "47.6",
        "49.9",
        "51.3",
        "47.8",
        "51.2",
        "52.6",
        "52.4",
        "53.6",
        "52.1",
    )
]


def test_the_flow_rates_of_the_nist_handbook():
    found = individuals(FLOW)

    assert found.count == 10
    assert float(found.mean) == pytest.approx(50.81, abs=1e-9)
    assert float(found.range_mean) == pytest.approx(1.8778, abs=5e-5)
    assert float(found.upper) == pytest.approx(55.8041, abs=5e-5)
    assert float(found.lower) == pytest.approx(45.8159, abs=5e-5)


def test_site_precision_is_2_77_standard_deviations():
    found = individuals(FLOW)

    assert float(found.site_precision) == pytest.approx(
        2.77 * 1.87778 / 1.128, abs=1e-4
    )


def test_one_value_has_no_moving_range():
    with pytest.raises(ControlRefused, match="two readings"):
        individuals(FLOW[:1])


def test_a_spread_is_taken_from_fifteen_readings_and_not_from_fourteen():
    values = [Decimal(286 + place % 2) for place in range(15)]

    assert own_deviation(values[:14]) is None
    assert float(own_deviation(values)) == pytest.approx(1 / 1.128)


def test_readings_that_are_all_equal_give_no_spread():
    assert own_deviation([Decimal(286)] * 20) is None
