"""Two groups of results beside each other, held against an independent library."""

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from specs.numbers import Number, read
from specs.statistics.comparison import BOUNDS, TOO_FEW, compared
from specs.statistics.intervals import IntervalRefused
from specs.statistics.summary import StatisticsRefused

group = st.lists(
    st.decimals(200, 320, places=1).map(Number.of), min_size=2, max_size=30
)


def numbers(text):
    return [read(it) for it in text.split()]


def floats(values):
    return [float(it.value) for it in values]


@given(group, group)
def test_means_by_welch_agree_with_scipy(first, second):
    assume(len(set(floats(first))) > 1 and len(set(floats(second))) > 1)
    found = compared(first, second)
    theirs = stats.ttest_ind(floats(second), floats(first), equal_var=False)
    interval = theirs.confidence_interval(0.95)

    assert float(found.freedom) == pytest.approx(theirs.df, rel=1e-6)
    assert float(found.means.lower) == pytest.approx(interval.low, abs=1e-6)
    assert float(found.means.upper) == pytest.approx(interval.high, abs=1e-6)


@given(group, group)
def test_spreads_agree_with_f_of_scipy(first, second):
    assume(len(set(floats(first))) > 1 and len(set(floats(second))) > 1)
    found = compared(first, second, Decimal("0.9")).spreads
    ratio = np.var(floats(second), ddof=1) / np.var(floats(first), ddof=1)
    f = stats.f(len(second) - 1, len(first) - 1)

    assert float(found.value) == pytest.approx(ratio**0.5, rel=1e-6)
    assert float(found.lower) == pytest.approx((ratio / f.ppf(0.95)) ** 0.5, rel=1e-6)
    assert float(found.upper) == pytest.approx((ratio / f.ppf(0.05)) ** 0.5, rel=1e-6)


@given(group, group)
def test_turned_round_everything_changes_its_side(first, second):
    one, other = compared(first, second), compared(second, first)

    assert one.medians == -other.medians
    assert one.means.lower == -other.means.upper
    assert one.freedom == other.freedom


def test_medians_stand_beside_a_bound_that_does_not_touch_them():
    found = compared(numbers("199 200 201"), numbers("202 203 >288"))

    assert (found.means, found.spreads, found.medians) == (None, None, 3)
    assert found.why_not == BOUNDS


def test_a_median_that_a_bound_leaves_open_is_not_compared():
    assert compared(numbers("200 201"), numbers("202 >288")).medians is None


def test_one_result_on_a_side_is_too_few_for_means():
    found = compared(numbers("280"), numbers("281 283"))

    assert (found.means, found.medians) == (None, 2)
    assert found.why_not == TOO_FEW


def test_equal_results_on_one_side_leave_no_ratio_of_spreads():
    found = compared(numbers("280 280 280"), numbers("281 283"))

    assert found.spreads is None
    assert found.freedom == 1  # the other side alone
    assert "the first are equal" in found.why_not


def test_equal_results_on_both_sides_differ_without_any_width():
    found = compared(numbers("280 280"), numbers("283 283"))

    assert (found.means.lower, found.means.value, found.means.upper) == (3, 3, 3)
    assert (found.freedom, found.spreads) == (None, None)


def test_a_group_without_results_is_refused():
    with pytest.raises(StatisticsRefused, match="no result"):
        compared([], numbers("280 281"))


@pytest.mark.parametrize("confidence", ["0", "1", "95", "NaN"])
def test_a_confidence_that_is_none_is_refused(confidence):
    with pytest.raises(IntervalRefused, match="between 0 and 1"):
        compared(numbers("280 281"), numbers("282 283"), Decimal(confidence))
