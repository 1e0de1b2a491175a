import math
from decimal import Decimal

import pytest

from specs.judging.constants import (
    EXACT,
    PRINTED,
    PROBABILITY,
    SETS,
    ConstantsRefused,
    constants_of,
)

# Critical range factors as ISO 5725-6 prints them (from memory).
FACTORS = dict(
    zip(
        range(2, 11),
        ["2.8", "3.3", "3.6", "3.9", "4.0", "4.2", "4.3", "4.4", "4.5"],
        strict=True,
    )
) | {20: "5.0", 50: "5.6", 100: "6.1"}


@pytest.mark.parametrize(("count", "printed"), FACTORS.items())
def test_the_printed_factors_are_those_of_the_standard(count, printed):
    found = constants_of(PRINTED).range_95(count)

    assert str(found) == printed
    assert round(constants_of(EXACT).range_95(count), 1) == found


def test_the_exact_constants_follow_from_the_normal_distribution():
    exact = constants_of(EXACT)

    assert float(exact.difference_95) == pytest.approx(
        1.959963984540054 * math.sqrt(2), rel=1e-9
    )
    assert float(exact.mean_range_2) == pytest.approx(2 / math.sqrt(math.pi), rel=1e-9)
    assert float(exact.one_sided_of_R(PROBABILITY)) == pytest.approx(
        1.6448536269514722 / (1.959963984540054 * math.sqrt(2)), rel=1e-9
    )
    assert exact.range_95(2) == exact.difference_95


def test_the_printed_constants_have_the_digits_of_the_standards():
    printed = constants_of(PRINTED)

    assert str(printed.difference_95) == "2.8"
    assert str(printed.mean_range_2) == "1.128"
    assert str(printed.one_sided_of_R(PROBABILITY)) == "0.59"


@pytest.mark.parametrize("constants", SETS.values(), ids=SETS)
def test_another_confidence_has_its_own_share_of_the_reproducibility(constants):
    share = constants.one_sided_of_R(Decimal("0.99"))

    assert round(share, 4) == Decimal("0.8393")


@pytest.mark.parametrize("constants", SETS.values(), ids=SETS)
def test_the_rule_of_three_retests_is_the_standards_own(constants):
    from_ranges = constants.range_95(3) / constants.range_95(2)

    assert constants.retested_three_of_R == Decimal("1.2")
    assert round(from_ranges, 1) == constants.retested_three_of_R


@pytest.mark.parametrize("constants", SETS.values(), ids=SETS)
def test_a_critical_range_needs_two_results_and_at_most_a_hundred(constants):
    with pytest.raises(ConstantsRefused, match="range of 1 results makes no sense"):
        constants.range_95(1)
    with pytest.raises(ConstantsRefused, match="for 101 results: the table ends"):
        constants.range_95(101)

    assert constants.range_95(2) < constants.range_95(100)


def test_each_set_knows_its_name():
    assert [constants_of(name).name for name in (EXACT, PRINTED)] == [EXACT, PRINTED]


@pytest.mark.parametrize("name", ["", "rough", "Exact"])
def test_other_constants_are_refused(name):
    with pytest.raises(ConstantsRefused, match=f"“{name}” names no constants"):
        constants_of(name)
