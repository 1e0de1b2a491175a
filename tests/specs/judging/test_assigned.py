from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.assigned import acceptance_bound, assigned_value
from specs.judging.checking import PrecisionRefused
from specs.judging.quantiles import QuantileRefused

THIRTEEN = Decimal(13)
VALUES = st.integers(1700, 2000).map(lambda tenths: Decimal(tenths) / 10)


def of(*texts):
    return [Decimal(text) for text in texts]


def settled(first, retest=None, referee=None, **more):
    found = assigned_value(
        THIRTEEN,
        of(*first),
        None if retest is None else of(*retest),
        None if referee is None else Decimal(referee),
        **more,
    )
    return found.basis, found.value


def test_two_results_exactly_r_apart_are_averaged():
    assert settled(("180", "193")) == ("first", Fraction("186.5"))
    assert settled(("193", "180"), ("1", "2"), "3") == ("first", Fraction("186.5"))


def test_beyond_r_the_retests_are_asked_for():
    with pytest.raises(
        PrecisionRefused, match=r"180 and 193\.1 differ by more than R = 13"
    ):
        settled(("180", "193.1"))

    assert settled(("180", "193.1"), ("182", "195")) == ("retest", Fraction("188.5"))


def test_beyond_r_again_a_referee_is_asked_for():
    with pytest.raises(
        PrecisionRefused, match=r"retests 182 and 195\.1 differ .* referee"
    ):
        settled(("180", "198"), ("182", "195.1"))

    assert settled(("180", "198"), ("182", "196"), "188") == ("three", Fraction(566, 3))


@pytest.mark.parametrize("constants", ["exact", "printed"])
def test_three_within_one_and_a_fifth_r_are_averaged(constants):
    # The standard states 1.2 R = 15.6; 1.196 R would be 15.55.
    within = settled(("180", "198"), ("180", "195.6"), "186", constants=constants)
    beyond = settled(("180", "198"), ("180", "195.61"), "186", constants=constants)

    assert within == ("three", Fraction("187.2"))
    assert beyond == ("closer pair", 183)


def test_the_referee_may_lie_outside_the_retests():
    assert settled(("180", "198"), ("180", "194"), "200") == ("closer pair", 197)
    assert settled(("180", "198"), ("180", "194"), "175") == (
        "closer pair",
        Fraction("177.5"),
    )
    assert settled(("180", "198"), ("194", "180"), "195") == ("three", Fraction(569, 3))


def test_a_tie_between_the_pairs_gives_the_mean_of_three():
    assert settled(("180", "200"), ("180", "200"), "190") == ("three", 190)


@pytest.mark.parametrize("first", [(), ("180",), ("180", "190", "200")])
def test_there_are_two_results_each_time(first):
    with pytest.raises(PrecisionRefused, match=f"There are {len(first)} first results"):
        settled(first)
    with pytest.raises(
        PrecisionRefused, match=f"There are {len(first)} retest results"
    ):
        settled(("180", "200"), first)


@pytest.mark.parametrize("figure", ["0", "-13", "NaN"])
def test_a_reproducibility_is_above_nought(figure):
    with pytest.raises(PrecisionRefused, match=f"reproducibility of {figure} is none"):
        assigned_value(Decimal(figure), of("1", "2"))
    with pytest.raises(PrecisionRefused, match=f"reproducibility of {figure} is none"):
        acceptance_bound(Decimal(180), "lower", Decimal(figure), Decimal("0.5"))


@given(VALUES, VALUES, VALUES, VALUES, VALUES)
def test_the_assigned_value_lies_among_the_results(a, b, c, d, e):
    found = assigned_value(THIRTEEN, [a, b], [c, d], e)
    used = {"first": (a, b), "retest": (c, d)}.get(found.basis, (c, d, e))

    assert min(used) <= found.value <= max(used)
    if found.basis == "closer pair":
        pairs = sorted([(abs(c - d), c + d), (abs(c - e), c + e), (abs(d - e), d + e)])
        assert found.value == Fraction(pairs[0][1]) / 2
        assert pairs[0][0] < pairs[1][0]


@given(VALUES, VALUES, VALUES, VALUES, VALUES)
def test_it_makes_no_difference_who_is_named_first(a, b, c, d, e):
    assert assigned_value(THIRTEEN, [a, b], [c, d], e) == assigned_value(
        THIRTEEN, [b, a], [d, c], e
    )


@pytest.mark.parametrize(
    ("side", "probability", "found"),
    [
        ("lower", "0.95", "174.55"),
        ("lower", "0.5", "180.00"),
        ("lower", "0.05", "185.45"),
        ("upper", "0.95", "185.45"),
        ("upper", "0.5", "180.00"),
        ("upper", "0.05", "174.55"),
    ],
)
def test_the_probability_of_acceptance_places_the_bound(side, probability, found):
    bound = acceptance_bound(Decimal(180), side, THIRTEEN, Decimal(probability))

    # 180 ∓ 1.6449 × 13/(2.7718 √2) = 174.545 and 185.455
    assert bound == pytest.approx(Decimal(found), abs=Decimal("0.005"))


def test_more_laboratories_bring_the_bound_nearer():
    p = Decimal("0.95")
    one, two, four = (
        acceptance_bound(Decimal(0), "upper", THIRTEEN, p, laboratories=count)
        for count in (1, 2, 4)
    )

    assert two == acceptance_bound(Decimal(0), "upper", THIRTEEN, p)
    assert one / two == pytest.approx(Decimal(2).sqrt(), rel=Decimal("1e-20"))
    assert one / four == pytest.approx(Decimal(2), rel=Decimal("1e-20"))


def test_the_printed_constant_widens_nothing():
    exact, printed = (
        acceptance_bound(
            Decimal(0), "upper", THIRTEEN, Decimal("0.95"), constants=constants
        )
        for constants in ("exact", "printed")
    )

    assert printed < exact
    assert exact / printed == pytest.approx(
        Decimal("2.8") / Decimal("2.771807649"), rel=Decimal("1e-12")
    )


def test_what_gives_no_bound_is_refused():
    limit, p = Decimal(180), Decimal("0.95")

    with pytest.raises(PrecisionRefused, match="“left” is no side"):
        acceptance_bound(limit, "left", THIRTEEN, p)
    with pytest.raises(
        PrecisionRefused, match="0 cannot be the number of laboratories"
    ):
        acceptance_bound(limit, "upper", THIRTEEN, p, laboratories=0)
    with pytest.raises(QuantileRefused, match="probability of 1 has no quantile"):
        acceptance_bound(limit, "upper", THIRTEEN, Decimal(1))
