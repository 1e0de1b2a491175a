"""The repeat rules against a slow, obvious twin, and what must hold for any results."""

from decimal import Decimal
from fractions import Fraction
from statistics import mean, median

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.repeats import ISO_4259, ISO_5725_6, ROUTES, TEST_AGAIN, repeat

FACTORS = {3: "3.3", 4: "3.6", 5: "3.9", 6: "4.0"}  # of ISO 5725-6, from memory
VALUES = st.integers(2700, 2900).map(lambda tenths: Fraction(tenths, 10))
RESULTS = st.lists(VALUES, min_size=1, max_size=6)
R = st.integers(1, 120).map(lambda tenths: Decimal(tenths) / 10)
WAYS = st.sampled_from([(ISO_4259, ""), *((ISO_5725_6, route) for route in ROUTES)])


def by_any(way, results, r):
    school, route = way
    return repeat(school, results, r, route=route, constants="printed")


def slowly_by_divergence(results, r):
    """What is left after striking out the farthest again and again, or None.

    Distances are compared as squares, in 2(k−1)/k of them, so that no root is needed.
    """
    left = sorted(results)
    while len(left) > 1:
        distances = []
        for place, value in enumerate(left):
            others = left[:place] + left[place + 1 :]
            distances.append(abs(value - mean(others)))
        worst = max(distances)
        count = len(left)
        if worst * worst * 2 * (count - 1) <= r * r * count:
            break
        farthest = {left[place] for place, d in enumerate(distances) if d == worst}
        if len(farthest) == 2:
            return None
        left.remove(farthest.pop())
    return mean(left)


def slowly_by_ranges(results, r, route):
    """The value reported, or how many more, by the routes written out in full."""
    count, spread = len(results), max(results) - min(results)
    if spread <= r:
        return mean(results), 0
    if count == 2:
        return None, {"two more": 2, "one more": 1, "one more, then a fourth": 1}[route]
    if count == 3 and route == "two more":
        return None, 1
    is_within = spread <= Fraction(FACTORS[count]) * r / Fraction("2.8")
    if count == 3 and route == "one more, then a fourth" and not is_within:
        return None, 1
    return (mean(results) if is_within else median(results)), 0


@given(RESULTS, R)
def test_iso_4259_agrees_with_the_obvious_twin(results, r):
    found = repeat(ISO_4259, results, r)

    wanted = slowly_by_divergence(results, Fraction(r))
    assert found.value == wanted
    assert found.more == (1 if wanted is None else 0)


@given(RESULTS, R, st.sampled_from(ROUTES))
def test_iso_5725_6_agrees_with_the_obvious_twin(results, r, route):
    found = by_any((ISO_5725_6, route), results, r)

    assert (found.value, found.more) == slowly_by_ranges(results, Fraction(r), route)


@given(WAYS, RESULTS, R, st.randoms(use_true_random=False))
def test_the_order_of_the_results_makes_no_difference(way, results, r, chance):
    shuffled = chance.sample(results, len(results))

    one, other = by_any(way, results, r), by_any(way, shuffled, r)

    assert (one.outcome, one.value, one.statistic, one.more) == (
        other.outcome,
        other.value,
        other.statistic,
        other.more,
    )
    assert sorted(results[place] for place in one.set_aside) == sorted(
        shuffled[place] for place in other.set_aside
    )


@given(WAYS, VALUES, st.integers(1, 6), R)
def test_equal_results_never_ask_for_more(way, value, count, r):
    found = by_any(way, [value] * count, r)

    assert (found.value, found.more, found.set_aside) == (value, 0, ())


@given(WAYS, RESULTS, R)
def test_a_reported_value_lies_among_the_results_that_stand(way, results, r):
    found = by_any(way, results, r)
    left = [it for place, it in enumerate(results) if place not in found.set_aside]

    if found.outcome == TEST_AGAIN:
        assert (found.value, found.statistic, found.set_aside) == (None, "", ())
        assert found.more in (1, 2)
        assert "asked for" in found.says
    else:
        assert min(left) <= found.value <= max(left)
        assert found.value == (mean if found.statistic == "mean" else median)(left)
        assert found.more == 0


@given(WAYS, RESULTS, R, st.integers(-300, 300))
def test_a_shift_of_all_results_shifts_what_is_reported(way, results, r, shift):
    found = by_any(way, results, r)
    moved = by_any(way, [it + shift for it in results], r)

    assert moved.set_aside == found.set_aside
    assert moved.value == (None if found.value is None else found.value + shift)


@given(WAYS, RESULTS, R, st.integers(1, 40))
def test_the_unit_makes_no_difference(way, results, r, factor):
    found = by_any(way, results, r)
    scaled = by_any(way, [it * factor for it in results], r * factor)

    assert scaled.outcome == found.outcome
    assert scaled.value == (None if found.value is None else found.value * factor)


@given(WAYS, RESULTS)
def test_results_within_r_are_reported_as_their_mean(way, results):
    spread = max(results) - min(results)
    r = Decimal(spread.numerator) / spread.denominator or Decimal(1)

    found = by_any(way, results, r)

    if way[0] == ISO_5725_6 or len(results) == 2:
        assert found.value == mean(results)
        assert found.set_aside == ()


@pytest.mark.parametrize("route", ROUTES)
def test_a_wider_repeatability_never_asks_for_more(route):
    results = [Fraction(280), Fraction(288), Fraction(284)]
    asked = [
        by_any((ISO_5725_6, route), results, Decimal(r) / 10).more
        for r in range(1, 120)
    ]

    assert asked == sorted(asked, reverse=True)
