"""Quantiles are held against printed tables and integrals, not against their own library."""

import json
import math
from decimal import Decimal
from pathlib import Path

import pytest
import scipy
from scipy.stats import studentized_range

from specs.judging.quantiles import (
    DIGITS,
    QuantileRefused,
    _cut,
    _range_within,
    _root,
    fisher_f,
    normal,
    normal_range,
    student_t,
)

# 5 % table of the studentized range, infinite degrees of freedom, as textbooks print it
# (from memory).
RANGES = dict(
    zip(
        range(2, 11),
        ["2.77", "3.31", "3.63", "3.86", "4.03", "4.17", "4.29", "4.39", "4.47"],
        strict=True,
    )
)


def simpson(density, low, high, steps=4000):
    """The integral of a smooth function, by Simpson's rule."""
    width = (high - low) / steps
    inner = math.fsum(
        (4 if place % 2 else 2) * density(low + place * width)
        for place in range(1, steps)
    )
    return width / 3 * (density(low) + inner + density(high))


def normal_density(z):
    return math.exp(-z * z / 2) / math.sqrt(2 * math.pi)


def t_density(freedom):
    size = math.gamma((freedom + 1) / 2) / math.gamma(freedom / 2)
    size /= math.sqrt(freedom * math.pi)
    return lambda t: size * (1 + t * t / freedom) ** (-(freedom + 1) / 2)


def f_density(above, below):
    """The density of x = F·above/(F·above + below), which is a beta one."""
    a, b = above / 2, below / 2
    size = math.gamma(a + b) / (math.gamma(a) * math.gamma(b))
    return lambda x: size * x ** (a - 1) * (1 - x) ** (b - 1)


@pytest.mark.parametrize(
    ("probability", "printed"),
    [
        ("0.5", "0.0000"),
        ("0.90", "1.2816"),
        ("0.95", "1.6449"),
        ("0.975", "1.9600"),
        ("0.99", "2.3263"),
        ("0.995", "2.5758"),
        ("0.05", "-1.6449"),
    ],
)
def test_normal_quantiles_are_the_printed_ones(probability, printed):
    assert round(normal(Decimal(probability)), 4) == Decimal(printed)


@pytest.mark.parametrize("probability", ["0.6", "0.95", "0.975", "0.999"])
def test_normal_quantiles_cut_off_their_probability(probability):
    z = float(normal(Decimal(probability)))

    found = 0.5 + simpson(normal_density, 0, z)

    assert found == pytest.approx(float(probability), abs=1e-9)


@pytest.mark.parametrize(
    ("probability", "freedom", "printed"),
    [
        ("0.975", 1, "12.706"),
        ("0.975", 2, "4.303"),
        ("0.975", 10, "2.228"),
        ("0.95", 5, "2.015"),
        ("0.99", 20, "2.528"),
        ("0.995", 30, "2.750"),
    ],
)
def test_t_quantiles_are_the_printed_ones(probability, freedom, printed):
    assert round(student_t(Decimal(probability), freedom), 3) == Decimal(printed)


@pytest.mark.parametrize("freedom", [1, 2, 6, 18])
@pytest.mark.parametrize("probability", ["0.95", "0.99375", "0.9995"])
def test_t_quantiles_cut_off_their_probability(probability, freedom):
    t = float(student_t(Decimal(probability), freedom))

    found = 0.5 + simpson(t_density(freedom), 0, t, 100_000 if t > 50 else 4000)

    assert found == pytest.approx(float(probability), abs=1e-9)


@pytest.mark.parametrize(
    ("above", "below", "printed"),
    [(2, 10, "4.10"), (3, 16, "3.24"), (4, 20, "2.87"), (1, 1, "161.45")],
)
def test_f_quantiles_are_the_printed_ones(above, below, printed):
    assert round(fisher_f(Decimal("0.95"), above, below), 2) == Decimal(printed)


@pytest.mark.parametrize(("above", "below"), [(2, 8), (4, 16), (3, 12), (2, 18)])
@pytest.mark.parametrize("probability", ["0.95", "0.9875", "0.999"])
def test_f_quantiles_cut_off_their_probability(probability, above, below):
    f = float(fisher_f(Decimal(probability), above, below))
    at = f * above / (f * above + below)

    beyond = simpson(f_density(above, below), at, 1, 20_000)

    assert 1 - beyond == pytest.approx(float(probability), abs=1e-8)


@pytest.mark.parametrize(("count", "printed"), RANGES.items())
def test_quantiles_of_the_range_are_the_printed_ones(count, printed):
    assert round(normal_range(Decimal("0.95"), count), 2) == Decimal(printed)


@pytest.mark.parametrize("count", [2, 3, 4, 7, 20, 100])
@pytest.mark.parametrize("probability", ["0.05", "0.5", "0.95", "0.999"])
def test_quantiles_of_the_range_agree_with_a_reference_library(probability, count):
    # The range is integrated in specs by hand, so scipy is a stranger to it.
    wanted = studentized_range.ppf(float(probability), count, math.inf)

    found = normal_range(Decimal(probability), count)

    assert float(found) == pytest.approx(wanted, rel=1e-9)


def test_the_range_agrees_with_reference_values_of_many_digits():
    # Reference values of the studentized range shipped with scipy, computed by mpmath.
    # With v degrees of freedom it is the range over a deviation s, where v s² is χ².
    path = Path(scipy.__file__).parent / "stats/tests/data"
    shipped = json.loads(
        (path / "studentized_range_mpmath_ref.json").read_text("utf-8")
    )
    cases = [
        (*(case["src_case"][key] for key in "kqv"), case["mp_result"])
        for case in shipped["cdf_data"]
    ]

    assert len(cases) > 10
    for count, q, freedom, probability in cases:
        found = with_estimated_deviation(_range_within(count), q, freedom)
        assert found == pytest.approx(probability, abs=1e-9), (count, q, freedom)


def with_estimated_deviation(within, q, freedom):
    half = freedom / 2
    size = math.log(2) + half * math.log(half) - math.lgamma(half)

    def weighted(s):
        density = math.exp(size + (freedom - 1) * math.log(s) - half * s * s)
        return density * within(q * s)

    return simpson(weighted, 1e-9, 4, 200)


def test_two_values_have_the_range_of_a_difference():
    assert normal_range(Decimal("0.95"), 2) == round(
        normal(Decimal("0.975")) * Decimal(2).sqrt(), 9
    )


def test_quantiles_have_ten_digits_and_no_more():
    found = [
        normal(Decimal("0.95")),
        student_t(Decimal("0.95"), 3),
        fisher_f(Decimal("0.99"), 2, 4),
        normal_range(Decimal("0.95"), 4),
    ]

    assert [len(each.as_tuple().digits) for each in found] == [DIGITS] * 4


@pytest.mark.parametrize("probability", ["0", "1", "-0.1", "1.5", "NaN", "Infinity"])
@pytest.mark.parametrize(
    "quantile",
    [
        normal,
        lambda p: student_t(p, 3),
        lambda p: fisher_f(p, 3, 3),
        lambda p: normal_range(p, 3),
    ],
    ids=["normal", "t", "f", "range"],
)
def test_a_probability_lies_between_nought_and_one(quantile, probability):
    with pytest.raises(QuantileRefused, match=f"probability of {probability} has no"):
        quantile(Decimal(probability))


def test_without_freedom_there_is_no_quantile():
    p = Decimal("0.95")

    for refused in (
        lambda: student_t(p, 0),
        lambda: fisher_f(p, 0, 1),
        lambda: fisher_f(p, 1, 0),
    ):
        with pytest.raises(QuantileRefused, match="0 degrees of freedom"):
            refused()
    with pytest.raises(QuantileRefused, match="1 value has no range"):
        normal_range(p, 1)
    assert student_t(p, 1) > fisher_f(Decimal("0.5"), 1, 1)


def test_a_probability_that_a_float_takes_for_one_is_refused():
    with pytest.raises(QuantileRefused, match="between 0 and 1"):
        normal(Decimal("0.99999999999999999999"))


def test_the_root_is_where_the_wanted_value_is_reached():
    assert _root(lambda x: x, 0.5, 1.0) == 0.5
    assert _root(lambda x: x, 0.3, 1.0) == pytest.approx(0.3, rel=1e-15)


@pytest.mark.parametrize("value", [math.inf, math.nan])
def test_what_cannot_be_computed_is_refused(value):
    with pytest.raises(QuantileRefused, match="beyond what can be computed"):
        _cut(value)
