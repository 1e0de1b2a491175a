"""The line of least squares with its intervals, held against certified values and an independent library."""

from decimal import Decimal
from fractions import Fraction
from importlib.resources import files

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from specs.statistics.intervals import IntervalRefused, t_of
from specs.statistics.line import line_of
from specs.statistics.summary import StatisticsRefused

points = st.lists(
    st.tuples(st.integers(0, 900), st.decimals(200, 320, places=1)),
    min_size=3,
    max_size=40,
)
# NIST Statistical Reference Datasets, Norris: certified standard deviations
SD_SLOPE, SD_INTERCEPT = 0.429796848199937e-03, 0.232818234301152


def norris():
    data = files("scipy.stats.tests.data.nist_linregress") / "Norris.dat"
    rows = data.read_text().splitlines()[60:96]
    y, x = zip(*(row.split() for row in rows), strict=True)
    return line_of([Decimal(it) for it in x], [Decimal(it) for it in y])


def test_the_certified_standard_deviations_of_norris():
    line = norris()
    t = t_of(Decimal("0.975"), Fraction(34))
    at_nought = line.at(0)

    assert float((line.slope.upper - line.slope.value) / t) == pytest.approx(
        SD_SLOPE, rel=1e-9
    )
    assert float((at_nought.upper - at_nought.value) / t) == pytest.approx(
        SD_INTERCEPT, rel=1e-9
    )
    assert at_nought.value == line.intercept


@given(points)
def test_it_agrees_with_scipy(found):
    x, y = ([it[side] for it in found] for side in (0, 1))
    assume(len(set(x)) > 1 and len(set(y)) > 1)
    line, theirs = line_of(x, y), stats.linregress(x, [float(it) for it in y])
    t = stats.t(len(x) - 2).ppf(0.975)

    assert float(line.slope.value) == pytest.approx(theirs.slope, abs=1e-7)
    assert float(line.intercept) == pytest.approx(theirs.intercept, abs=1e-5)
    assert float(line.r_squared) == pytest.approx(theirs.rvalue**2, abs=1e-7)
    half = float(line.slope.upper - line.slope.value)
    assert half == pytest.approx(t * theirs.stderr, abs=1e-5)


@given(points, st.integers(-100, 1200))
def test_its_bands_agree_with_the_matrix_of_least_squares(found, place):
    x, y = ([it[side] for it in found] for side in (0, 1))
    assume(len(set(x)) > 1)
    line = line_of(x, y)
    matrix = np.column_stack([np.ones(len(x)), np.array(x, dtype=float)])
    covariance = np.linalg.inv(matrix.T @ matrix) * float(line.s) ** 2
    row = np.array([1.0, float(place)])
    t = stats.t(len(x) - 2).ppf(0.975)
    mean, one = line.at(place), line.one_more_at(place)
    spread = row @ covariance @ row

    assert float(mean.upper - mean.value) == pytest.approx(
        t * spread**0.5, rel=1e-6, abs=1e-6
    )
    assert float(one.upper - one.value) == pytest.approx(
        t * (spread + float(line.s) ** 2) ** 0.5, rel=1e-6, abs=1e-6
    )


def test_points_on_a_line_leave_nothing():
    line = line_of([0, 1, 2, 5], [Decimal(it) for it in ("1", "1.1", "1.2", "1.5")])

    assert (line.s, line.slope.lower, line.slope.upper) == (
        0,
        Decimal("0.1"),
        Decimal("0.1"),
    )
    assert line.r_squared == 1


def test_equal_results_have_a_flat_line_and_no_share_explained():
    line = line_of([0, 1, 2], [Decimal(5)] * 3)

    assert (line.slope.value, line.r_squared) == (0, None)


def test_fewer_than_three_results_are_refused():
    with pytest.raises(StatisticsRefused, match="3 results or more"):
        line_of([0, 1], [Decimal(1), Decimal(2)])


def test_results_of_one_place_are_refused():
    with pytest.raises(StatisticsRefused, match="one place"):
        line_of([4, 4, 4], [Decimal(it) for it in (1, 2, 3)])


def test_unlike_counts_are_refused():
    with pytest.raises(StatisticsRefused, match="its one place"):
        line_of([0, 1, 2, 3], [Decimal(it) for it in (1, 2, 3)])


def test_a_confidence_that_is_none_is_refused():
    with pytest.raises(IntervalRefused, match="between 0 and 1"):
        line_of([0, 1, 2], [Decimal(it) for it in (1, 2, 4)], Decimal(95))


def test_no_quantile_without_a_degree_of_freedom():
    with pytest.raises(IntervalRefused, match="more results"):
        t_of(Decimal("0.975"), Fraction(0))
