"""A group of results in figures: exactly, against two independent libraries, and in a row of results that no float holds."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.numbers import Number, read
from specs.statistics.summary import (
    StatisticsRefused,
    mean_of,
    summary_of,
    summary_of_loads,
    summary_of_marks,
    variance_of,
)

COPPER = ("1a", "1b", "2a", "2b")
results = st.lists(
    st.decimals(-1000, 1000, places=2).map(Number.of), min_size=2, max_size=60
)


def numbers(text):
    return [read(it) for it in text.split()]


@given(results)
def test_it_agrees_with_pandas(values):
    found = summary_of(values)
    told = pd.Series([float(it.value) for it in values]).describe()

    assert float(found.mean) == pytest.approx(told["mean"], abs=1e-8)
    assert float(found.s) == pytest.approx(told["std"], abs=1e-6)
    pairs = {
        "minimum": "min",
        "lower_quartile": "25%",
        "median": "50%",
        "upper_quartile": "75%",
        "maximum": "max",
    }
    for name, theirs in pairs.items():
        assert float(getattr(found, name)) == pytest.approx(told[theirs], abs=1e-8)


@given(results)
def test_mean_and_variance_are_exact(values):
    exact = [Fraction(it.value) for it in values]
    mean = sum(exact) / len(exact)

    assert mean_of([it.value for it in values]) == mean
    assert variance_of([it.value for it in values]) == sum(
        (it - mean) ** 2 for it in exact
    ) / (len(exact) - 1)


def test_digits_that_doubles_lose_are_kept():
    values = [Decimal(f"1000000000000.{it}") for it in "24135"]

    assert variance_of(values) == Fraction(1, 40)
    assert np.var([float(it) for it in values], ddof=1) != 0.025


def test_numbers_written_with_an_exponent_are_taken_as_they_are():
    assert variance_of([Decimal("1E+2"), Decimal(102)]) == 2


def test_one_result_has_a_mean_and_no_spread():
    found = summary_of(numbers("280"))

    assert (found.count, found.mean, found.s) == (1, 280, None)
    assert {found.minimum, found.median, found.maximum} == {"280"}


def test_equal_results_have_a_spread_of_nought():
    assert summary_of(numbers("280 280 280")).s == 0


@pytest.mark.parametrize("sum_up", [summary_of, summary_of_loads])
def test_nothing_has_no_summary(sum_up):
    with pytest.raises(StatisticsRefused, match="no result"):
        sum_up([])


def test_no_mean_of_nothing():
    with pytest.raises(StatisticsRefused, match="no result"):
        mean_of([])


def test_no_spread_of_one():
    with pytest.raises(StatisticsRefused, match="One result has no spread"):
        variance_of([Decimal(1)])


def test_loads_are_put_in_order_and_never_lie_between_two():
    found = summary_of_loads(numbers("200 250 315 400"))

    assert (found.mean, found.s) == (None, None)
    assert (found.lower_quartile, found.median, found.upper_quartile) == (
        "200",
        "250",
        "315",
    )


def test_a_load_that_never_failed_is_the_greatest():
    found = summary_of_loads(numbers("250 >800 315"))

    assert (found.minimum, found.median, found.maximum) == ("250", "315", ">800")
    assert found.censored == 1


def test_marks_are_counted_best_first_and_have_a_middle():
    found = summary_of_marks(["1b", "1a", "1a", "2a", "1b"], COPPER)

    assert found.counts == (("1a", 2), ("1b", 2), ("2a", 1))
    assert (found.minimum, found.median, found.maximum) == ("1a", "1b", "2a")
    assert (found.mean, found.s) == (None, None)


def test_between_two_marks_the_worse_one_stands():
    found = summary_of_marks(["1a", "2a"], COPPER)

    assert found.median == "2a"
    assert summary_of_marks(["1a", "1a", "2a", "2b"], COPPER).median == "2a"


def test_words_without_an_order_are_only_counted():
    found = summary_of_marks(["smooth", "lumpy", "smooth"], ())

    assert found.counts == (("lumpy", 1), ("smooth", 2))
    assert (found.minimum, found.median, found.maximum) == ("", "", "")


def test_no_marks_have_no_summary():
    with pytest.raises(StatisticsRefused, match="no result"):
        summary_of_marks([], COPPER)
