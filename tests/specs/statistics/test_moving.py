"""Whether results move: Mann-Kendall and Theil-Sen, held against all orders, an independent library, and printed tables."""

from decimal import Decimal
from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from specs.statistics import moving
from specs.statistics.intervals import IntervalRefused
from specs.statistics.moving import moving_of
from specs.statistics.summary import StatisticsRefused

series = st.lists(
    st.tuples(st.integers(0, 300), st.decimals(250, 300, places=0)),
    min_size=3,
    max_size=40,
)


def of(*values, places=None):
    return moving_of(places or range(len(values)), [Decimal(str(it)) for it in values])


def sign(number):
    return (number > 0) - (number < 0)


def unzipped(found):
    return [it[0] for it in found], [it[1] for it in found]


@given(series)
def test_s_is_the_sum_over_all_pairs(found):
    x, y = unzipped(found)
    assume(len(set(x)) > 1)
    pairs = [(i, j) for i in range(len(x)) for j in range(i)]

    assert (
        sum(sign(x[i] - x[j]) * sign(y[i] - y[j]) for i, j in pairs)
        == moving_of(x, y).S
    )


@given(series)
def test_its_variance_with_ties_on_both_sides_is_that_of_kendall(found):
    """Scipy's tau tells p of S/√Var without the continuity correction."""
    x, y = unzipped(found)
    assume(len(set(x)) > 1 and len(set(y)) > 1)
    mine = moving_of(x, y)
    theirs = stats.kendalltau(
        x, [float(it) for it in y], method="asymptotic", variant="b"
    )
    plain = 2 * stats.norm.sf(abs(mine.S) / float(mine.variance) ** 0.5)

    assert plain == pytest.approx(theirs.pvalue, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize("size", [3, 4, 5, 6])
def test_p_is_counted_over_all_orders(size):
    orders = list(permutations(range(size)))
    every = {order: of(*order).S for order in orders}
    for order in orders[:: max(len(orders) // 24, 1)]:
        far = sum(abs(s) >= abs(every[order]) for s in every.values())
        found = of(*order)

        assert found.is_exact
        assert float(found.p) == pytest.approx(far / len(orders))


def test_the_printed_table_of_the_exact_distribution():
    """One-sided P(S ≥ s): n = 4, s = 6: 0.042; n = 6, s = 9: 0.068 (from memory)."""
    assert round(float(of(1, 2, 3, 4).p) / 2, 3) == 0.042
    nine = of(2, 3, 4, 1, 5, 6)

    assert nine.S == 9
    assert round(float(nine.p) / 2, 3) == 0.068


def test_with_ties_or_many_results_p_comes_from_the_normal_distribution():
    tied = of(10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15)

    assert not tied.is_exact
    assert float(tied.p) == pytest.approx(0.0920, abs=5e-5)
    assert not of(*range(11)).is_exact


@given(series)
def test_the_slope_is_that_of_scipy(found):
    x, y = unzipped(found)
    assume(len(set(x)) == len(x))
    mine = moving_of(x, y).slope
    theirs = stats.theilslopes([float(it) for it in y], x, alpha=0.95)

    assert float(mine.value) == pytest.approx(theirs.slope, abs=1e-9)
    assert float(mine.lower) == pytest.approx(theirs.low_slope, abs=1e-9)
    assert float(mine.upper) == pytest.approx(theirs.high_slope, abs=1e-9)


def test_the_slope_is_exact():
    assert of(0, 1, 2, places=[0, 3, 6]).slope.value == Decimal(
        "0.3333333333333333333333333333"
    )
    assert (
        moving_of(
            [Fraction(0), Fraction(1, 3), Fraction(2, 3)],
            [Decimal(0), Decimal(1), Decimal(2)],
        ).slope.value
        == 3
    )


def test_one_wild_value_leaves_the_middle_slope_alone():
    quiet, wild = of(1, 2, 3, 4, 5, 6, 7), of(1, 2, 3, 4, 5, 6, 700)

    assert quiet.slope.value == wild.slope.value == 1


def test_what_never_moves_has_no_z():
    found = of(5, 5, 5, 5)

    assert (found.S, found.z, found.p, found.slope.value) == (0, 0, 1, 0)


def test_the_order_in_which_results_are_given_does_not_count():
    one = of(3, 1, 2, places=[30, 10, 20])

    assert (one.S, one.slope.value) == (3, Decimal("0.1"))


def test_of_very_many_results_the_slopes_are_not_looked_at_two_by_two(monkeypatch):
    monkeypatch.setattr(moving, "MOST_PAIRED", 4)

    assert of(1, 2, 3, 4).slope is not None
    assert of(1, 2, 3, 4, 5).slope is None
    assert of(1, 2, 3, 4, 5).S == 10


@pytest.mark.parametrize(
    ("places", "values"), [([0, 1], [1, 2]), ([7, 7, 7], [1, 2, 3]), ([], [])]
)
def test_too_few_results_or_one_place_are_refused(places, values):
    with pytest.raises(StatisticsRefused, match="3 or more"):
        moving_of(places, [Decimal(it) for it in values])


def test_unlike_counts_are_refused():
    with pytest.raises(StatisticsRefused, match="its one place"):
        moving_of([0, 1, 2], [Decimal(1)])


def test_a_confidence_that_is_none_is_refused():
    with pytest.raises(IntervalRefused, match="between 0 and 1"):
        moving_of([0, 1, 2], [Decimal(1)] * 3, Decimal(2))
