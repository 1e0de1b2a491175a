"""Results known only as a bound: what of the ranks they leave determined holds for every value that may stand behind them."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.numbers import Number, read
from specs.statistics.ranks import ordered
from specs.statistics.summary import summary_of

SHARES = [Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(3, 4), Fraction(1)]


def summed(text):
    return summary_of([read(it) for it in text.split()])


def test_a_bound_is_counted_and_nothing_is_averaged():
    found = summed("201 203 >288 199 204")

    assert (found.count, found.censored) == (5, 1)
    assert (found.mean, found.s) == (None, None)


@pytest.mark.parametrize(
    ("values", "name", "known"),
    [
        ("201 203 >288 199 204", "median", "203"),
        ("201 203 >288 199 204", "maximum", ">288"),
        ("201 >288 300", "maximum", "≥300"),
        ("201 >200", "minimum", ""),  # above 200, at most 201
        ("201 >201", "minimum", "201"),
        ("<2 3 4", "minimum", "<2"),
        ("<2 <2 <2", "maximum", "<2"),
        ("<2 <2 <2", "median", "<2"),
        (">288 >288", "median", ">288"),
        ("<2 >288", "median", ""),
        ("<5 3 4", "minimum", "≤3"),
        ("<5 3 4", "maximum", ""),  # 4 to below 5
        ("200 >210", "median", ">205"),
        ("200 210 >220 >230", "upper_quartile", ">222.5"),
    ],
)
def test_what_is_known_of_a_rank(values, name, known):
    assert getattr(summed(values), name) == known


@st.composite
def behind(draw):
    """Results, some of them bounds, and values that may truly stand behind them."""
    truths = draw(st.lists(st.integers(-20, 20), min_size=1, max_size=8))
    told = []
    for truth in truths:
        away = draw(st.integers(1, 6))
        told.append(
            draw(
                st.sampled_from(
                    [
                        Number.of(truth),
                        Number.of(truth - away, ">"),
                        Number.of(truth + away, "<"),
                    ]
                )
            )
        )
    return truths, told


def quantile(truths, share):
    line, place = sorted(truths), (len(truths) - 1) * share
    at, rest = int(place), place - int(place)
    more = line[min(at + 1, len(line) - 1)]
    return line[at] + rest * (more - line[at])


@given(behind())
def test_no_figure_contradicts_a_value_that_may_stand_behind_the_bounds(case):
    truths, told = case
    for share in SHARES:
        known, true = ordered(told).quantile(share), quantile(truths, share)
        sign = known[:1]
        if not known:
            continue
        figure = Fraction(Decimal(known.lstrip("<>≤≥")))
        holds = {
            "<": true < figure,
            ">": true > figure,
            "≤": true <= figure,
            "≥": true >= figure,
        }.get(sign, true == figure)
        assert holds, (known, true)


@given(st.lists(st.integers(-20, 20), min_size=1, max_size=8))
def test_without_bounds_every_rank_is_determined(truths):
    found = ordered([Number.of(it) for it in truths])

    for share in SHARES:
        assert Fraction(Decimal(found.quantile(share))) == quantile(truths, share)
