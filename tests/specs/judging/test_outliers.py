from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.checking import PrecisionRefused
from specs.judging.outliers import (
    Grubbs,
    OutliersRefused,
    cochran_critical,
    cochran_statistic,
    grubbs,
    grubbs_critical,
)

FIVE, ONE = Decimal("0.05"), Decimal("0.01")
# NIST/SEMATECH e-Handbook 1.3.5.17.1
URANIUM = [
    Decimal(text)
    for text in [
        "199.31",
        "199.53",
        "200.19",
        "200.82",
        "201.92",
        "201.95",
        "202.18",
        "245.57",
    ]
]
# ISO 5725-2, sulphur in coal, level 1 (from memory)
COAL = [
    [Decimal(text) for text in cell.split()]
    for cell in [
        ".71 .71 .70 .71",
        " .69 .67 .68",
        " .66 .65 .69",
        " .67 .65 .66",
        " .70 .69 .66 .71 .69",
        " .73 .74 .73",
        " .71 .71 .69",
        " .70 .65 .68",
    ]
]
VALUES = st.lists(st.integers(0, 500).map(Decimal), min_size=3, max_size=12)


def test_the_published_example_of_an_outlier():
    found = grubbs(URANIUM, FIVE, 1)

    assert round(found.statistic, 6) == Decimal("2.468765")
    assert round(found.critical, 6) == Decimal("2.031652")
    assert (found.suspect, found.is_outlying) == (Decimal("245.57"), True)


def test_the_lower_tail_looks_at_the_smallest():
    found = grubbs(URANIUM, FIVE, 1, tail="lower")

    assert (found.suspect, found.is_outlying) == (Decimal("199.31"), False)
    mirrored = grubbs([-value for value in URANIUM], FIVE, 1, tail="lower")
    assert mirrored.suspect == Decimal("-245.57")
    assert mirrored.statistic == grubbs(URANIUM, FIVE, 1).statistic


def test_two_sides_look_at_the_farthest():
    assert grubbs(URANIUM, FIVE, 2).suspect == Decimal("245.57")
    assert grubbs([-value for value in URANIUM], FIVE, 2).suspect == Decimal("-245.57")


def test_of_two_ends_equally_far_the_larger_is_named():
    values = [Decimal(text) for text in ("-1", "0", "0", "1")]

    assert grubbs(values, FIVE, 2).suspect == 1
    assert grubbs(values[::-1], FIVE, 2).suspect == 1


def test_a_statistic_at_the_critical_value_is_not_outlying():
    two, more = Decimal(2), Decimal("2.000000001")

    assert not Grubbs(two, two, Decimal(1)).is_outlying
    assert Grubbs(more, two, Decimal(1)).is_outlying


def test_equal_values_have_no_suspect():
    found = grubbs([Decimal(5)] * 4, FIVE, 2)

    assert (found.statistic, found.suspect, found.is_outlying) == (0, None, False)


@given(VALUES, st.sampled_from([1, 2]), st.integers(-500, 500), st.integers(1, 9))
def test_neither_unit_nor_nought_makes_a_difference(values, sides, shift, factor):
    one = grubbs(values, FIVE, sides)
    other = grubbs([value * factor + shift for value in values], FIVE, sides)

    assert abs(other.statistic - one.statistic) <= Decimal("1e-8")
    assert other.critical == one.critical
    assert (one.suspect is None) is (other.suspect is None)


@given(VALUES)
def test_no_value_lies_farther_than_the_greatest_possible(values):
    count = len(values)

    assert grubbs(values, FIVE, 2).statistic <= (count - 1) / Decimal(
        count
    ).sqrt() + Decimal("1e-9")


def test_the_critical_value_grows_with_fewer_chances():
    one_sided, two_sided = (grubbs_critical(8, FIVE, sides) for sides in (1, 2))

    assert one_sided < two_sided < grubbs_critical(8, ONE, 2)
    assert grubbs_critical(8, Decimal("0.10"), 2) == one_sided
    assert grubbs_critical(3, FIVE, 2) < Decimal("1.1548")


@pytest.mark.parametrize("count", [0, 1, 2])
def test_fewer_than_three_values_are_refused(count):
    with pytest.raises(OutliersRefused, match=f"cannot judge {count} values"):
        grubbs([Decimal(5), Decimal(6)][:count], FIVE, 1)


def test_other_sides_and_tails_are_refused():
    for sides in (0, 3):
        with pytest.raises(OutliersRefused, match=f"cannot have {sides} sides"):
            grubbs(URANIUM, FIVE, sides)
    with pytest.raises(OutliersRefused, match="“left” is no tail: name upper or lower"):
        grubbs(URANIUM, FIVE, 1, tail="left")


@pytest.mark.parametrize("alpha", ["0", "1", "5", "-0.05", "NaN"])
def test_a_significance_lies_between_nought_and_one(alpha):
    with pytest.raises(OutliersRefused, match=f"significance of {alpha} decides"):
        grubbs_critical(5, Decimal(alpha), 1)
    with pytest.raises(OutliersRefused, match=f"significance of {alpha} decides"):
        cochran_critical(5, 3, Decimal(alpha))


def test_the_greatest_variance_of_the_coal_is_no_straggler():
    found = cochran_statistic(COAL)

    assert round(found, 4) == Decimal("0.3502")
    assert round(cochran_critical(8, 3, FIVE), 3) == Decimal("0.516")
    assert found < cochran_critical(8, 3, FIVE)


def test_the_statistic_is_a_share_of_all_variances():
    cells = [[Decimal(0), Decimal(side)] for side in (1, 1, 2)]

    assert cochran_statistic(cells) == Decimal("0.6666666667")
    assert cochran_statistic([[Decimal(1), Decimal(1)]] * 3) == 0


def test_variances_are_compared_with_others():
    with pytest.raises(OutliersRefused, match="1 is too few"):
        cochran_statistic(COAL[:1])
    with pytest.raises(PrecisionRefused, match="1 results have no variance"):
        cochran_statistic([*COAL, [Decimal(1)]])
    for p, n, words in ((1, 3, "1 laboratories"), (5, 1, "1 results each")):
        with pytest.raises(OutliersRefused, match=f"cannot compare {words}"):
            cochran_critical(p, n, FIVE)

    assert round(cochran_critical(2, 2, FIVE), 3) == Decimal("0.998")
    assert cochran_statistic(COAL[:2]) > Decimal("0.5")
