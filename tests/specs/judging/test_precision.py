from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.constants import ConstantsRefused
from specs.judging.precision import (
    PARTIES,
    PrecisionRefused,
    critical_difference,
    mean_reproducibility,
    single_result_bound,
)

ZERO, ONE, TEN, SIX = Decimal(0), Decimal(1), Decimal(10), Decimal(6)
R_28, R_56 = Decimal("2.8"), Decimal("5.6")  # 2.8 σ for σr = 1 and σR = 2
BAD = ["0", "-1", "NaN", "Infinity"]


@pytest.mark.parametrize(
    ("side", "party", "printed"),
    [
        ("upper", "recipient", "105.9"),
        ("upper", "supplier", "94.1"),
        ("lower", "recipient", "94.1"),
        ("lower", "supplier", "105.9"),
    ],
)
def test_supplier_and_recipient_move_the_limit_in_opposite_directions(
    side, party, printed
):
    found = single_result_bound(Decimal(100), side, TEN, party, constants="printed")

    assert found == Decimal(printed)


@given(
    st.decimals("-500", "500", places=2),
    st.decimals("0.01", "50", places=2),
    st.sampled_from(["upper", "lower"]),
    st.sampled_from(["exact", "printed"]),
)
def test_the_bounds_of_both_parties_lie_about_the_limit(limit, figure, side, constants):
    low, high = sorted(
        Fraction(single_result_bound(limit, side, figure, party, constants=constants))
        for party in PARTIES
    )

    assert low < limit < high
    assert (low + high) / 2 == pytest.approx(Fraction(limit), abs=Fraction(1, 10**20))
    assert (high - low) / 2 == pytest.approx(
        Fraction(figure) * Fraction("0.59342"), rel=Fraction(1, 100)
    )


def test_a_greater_confidence_moves_the_bound_farther():
    found = [
        single_result_bound(ZERO, "upper", ONE, "recipient", confidence=Decimal(share))
        for share in ("0.5", "0.9", "0.95", "0.99")
    ]

    assert [round(each, 4) for each in found] == [
        ZERO,
        Decimal("0.4624"),
        Decimal("0.5934"),
        Decimal("0.8393"),
    ]


@pytest.mark.parametrize("confidence", ["0.49", "1", "95", "0", "-1", "NaN"])
def test_a_confidence_is_a_share_from_a_half_to_below_one(confidence):
    with pytest.raises(PrecisionRefused, match=f"confidence of {confidence} decides"):
        single_result_bound(
            ZERO, "upper", ONE, "recipient", confidence=Decimal(confidence)
        )


def test_an_unknown_side_party_or_set_of_constants_is_named():
    with pytest.raises(PrecisionRefused, match="“middle” is no side of a limit"):
        single_result_bound(ZERO, "middle", ONE, "recipient")
    with pytest.raises(PrecisionRefused, match="“buyer” is no party: name recipient"):
        single_result_bound(ZERO, "upper", ONE, "buyer")
    with pytest.raises(ConstantsRefused, match="“rough”"):
        single_result_bound(ZERO, "upper", ONE, "recipient", constants="rough")


@pytest.mark.parametrize("figure", BAD)
def test_a_reproducibility_is_above_nought(figure):
    with pytest.raises(PrecisionRefused, match=f"reproducibility of {figure} is none"):
        single_result_bound(ZERO, "upper", Decimal(figure), "recipient")
    with pytest.raises(PrecisionRefused, match=f"reproducibility of {figure} is none"):
        mean_reproducibility(Decimal(figure), ONE, [1])


@pytest.mark.parametrize("r", BAD)
def test_a_repeatability_is_above_nought(r):
    with pytest.raises(PrecisionRefused, match=f"repeatability of {r} is none"):
        mean_reproducibility(TEN, Decimal(r), [1])
    with pytest.raises(PrecisionRefused, match=f"repeatability of {r} is none"):
        critical_difference(Decimal(r), 1, 1)


@pytest.mark.parametrize(
    ("counts", "reproducibility", "half_width"),
    [
        ([2], "9.0554", "6.4031"),
        ([1, 1], "10.0000", "5.0000"),
        ([2, 2], "9.0554", "4.5277"),
        ([1], "10.0000", "7.0711"),
        ([1, 3], "9.3808", "4.6904"),
    ],
)
def test_averages_reproduce_better_than_single_results(
    counts, reproducibility, half_width
):
    found = mean_reproducibility(TEN, SIX, counts)

    assert round(found.reproducibility, 4) == Decimal(reproducibility)
    assert round(found.half_width, 4) == Decimal(half_width)


@given(st.lists(st.integers(1, 9), min_size=1, max_size=6))
def test_averages_gain_no_more_than_repeatability_costs(counts):
    found = mean_reproducibility(TEN, SIX, counts)

    assert 8 < found.reproducibility <= TEN  # √(10² − 6²) = 8
    assert (found.reproducibility == TEN) == (set(counts) == {1})


def test_equal_figures_of_one_and_of_two_laboratories_are_possible():
    found = mean_reproducibility(SIX, SIX, [4])

    assert found.reproducibility == 3


def test_a_repeatability_above_the_reproducibility_is_questioned():
    with pytest.raises(
        PrecisionRefused, match=r"of 6\.1 above the reproducibility of 6"
    ):
        mean_reproducibility(SIX, Decimal("6.1"), [1])


@pytest.mark.parametrize("count", ["0", "-1", "1.5", "NaN", "Infinity"])
def test_a_laboratory_has_a_whole_number_of_results(count):
    with pytest.raises(
        PrecisionRefused, match=f"{count} cannot be the number of a lab"
    ):
        mean_reproducibility(TEN, SIX, [Decimal(2), Decimal(count)])


def test_without_a_laboratory_nothing_is_averaged():
    with pytest.raises(PrecisionRefused, match="There is no laboratory"):
        mean_reproducibility(TEN, SIX, [])


def test_critical_differences_of_averages():
    # ISO 5725-6, σr = 1, σR = 2, 2.8 σ: worked out by hand.
    assert round(critical_difference(R_28, 2, 2), 4) == Decimal("1.9799")
    assert critical_difference(R_28, 1, 1) == R_28
    assert round(critical_difference(R_28, 1, 3), 4) == Decimal("2.2862")
    two, four = (mean_reproducibility(R_56, R_28, it) for it in ([2, 2], [4]))
    assert round(two.reproducibility, 4) == Decimal("5.2383")
    assert round(four.half_width, 4) == Decimal("3.5693")
    assert mean_reproducibility(R_56, R_28, [1, 1]).reproducibility == R_56


def test_a_critical_difference_needs_results():
    with pytest.raises(PrecisionRefused, match="0 cannot be the number of an average"):
        critical_difference(R_28, 0, 1)
    with pytest.raises(PrecisionRefused, match="0 cannot be the number of an average"):
        critical_difference(R_28, 1, 0)
