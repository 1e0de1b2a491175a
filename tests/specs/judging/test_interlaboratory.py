"""The precision of trials, against certified data of NIST and worked examples."""

import statistics
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
import scipy
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.checking import PrecisionRefused
from specs.judging.constants import ConstantsRefused
from specs.judging.interlaboratory import interlaboratory, variance

# NIST StRD, analysis of variance: www.itl.nist.gov/div898/strd, as shipped with scipy.
FOLDER = Path(scipy.__file__).parent / "stats" / "tests" / "data" / "nist_anova"
NAMES = ["AtmWtAg", "SiRstv", *(f"SmLs0{number}" for number in range(1, 10))]
RESULTS = st.lists(
    st.lists(st.integers(0, 99).map(Decimal), min_size=1, max_size=4),
    min_size=2,
    max_size=5,
).filter(lambda cells: any(len(cell) > 1 for cell in cells))


def certified(name):
    """The data by treatment, the mean squares between and within, and the deviation."""
    lines = (FOLDER / f"{name}.dat").read_text(encoding="utf-8").splitlines()
    squares = {
        line.split()[0]: Fraction(line.split()[4])
        for line in lines[39:60]
        if line.startswith(("Between", "Within"))
    }
    (place,) = [n for n, line in enumerate(lines) if "Certified Residual" in line]
    cells = {}
    for line in lines[60:]:
        if line.strip():
            treatment, response = line.split()
            cells.setdefault(treatment, []).append(Decimal(response))
    deviation = Fraction(lines[place + 1].split()[-1])
    return list(cells.values()), squares["Between"], squares["Within"], deviation


@pytest.mark.parametrize("name", NAMES)
def test_the_certified_variances_come_out_to_their_last_digit(name):
    cells, between, within, deviation = certified(name)
    close = Fraction(1, 10**13)

    found = interlaboratory(cells)

    (size,) = {len(cell) for cell in cells}
    laboratory = max((between - within) / size, Fraction(0))
    assert Fraction(found.s_r) == pytest.approx(deviation, rel=close)
    assert Fraction(found.s_r) ** 2 == pytest.approx(within, rel=close)
    assert Fraction(found.s_L) ** 2 == pytest.approx(laboratory, rel=close)
    assert Fraction(found.s_R) ** 2 == pytest.approx(laboratory + within, rel=close)
    assert found.is_cut is (between < within)


def test_a_negative_variance_between_laboratories_is_cut_and_told():
    found = interlaboratory([[Decimal(1), Decimal(5)], [Decimal(2), Decimal(4)]])

    assert (found.s_L, found.is_cut) == (0, True)
    assert found.s_R == found.s_r
    assert found.r == found.R


def test_a_variance_of_just_nought_is_not_cut():
    # means 0 and 1, so that s_r² = s_d² = 1
    cells = [[Decimal(0), Decimal(0)], [Decimal(0), Decimal(2)]]
    found = interlaboratory(cells)

    assert Fraction(found.s_r) ** 2 == pytest.approx(1)
    assert (found.s_L, found.is_cut) == (0, False)


@given(RESULTS)
def test_the_deviations_agree_with_an_obvious_twin(cells):
    found = interlaboratory(cells)

    many = [cell for cell in cells if len(cell) > 1]
    freedom = sum(len(cell) - 1 for cell in many)
    within = sum(
        statistics.variance(map(Fraction, cell)) * (len(cell) - 1) for cell in many
    )
    within /= freedom
    everything = [Fraction(x) for cell in cells for x in cell]
    assert found.mean == statistics.mean(everything)
    assert Fraction(found.s_r) ** 2 == pytest.approx(within, abs=Fraction(1, 10**20))
    assert found.s_R >= found.s_r
    assert found.r <= found.R
    if not found.is_cut:
        total = sum((x - found.mean) ** 2 for x in everything)
        number = len(everything) - Fraction(
            sum(len(cell) ** 2 for cell in cells), len(everything)
        )
        between = (total - within * freedom - within * (len(cells) - 1)) / number
        assert Fraction(found.s_L) ** 2 == pytest.approx(
            between, abs=Fraction(1, 10**20)
        )


def test_the_limits_are_taken_with_the_constants_named():
    cells = [[Decimal(10), Decimal(12)], [Decimal(20), Decimal(22)]]

    printed = interlaboratory(cells, "printed")
    exact = interlaboratory(cells)

    assert printed.r / printed.s_r == pytest.approx(
        Decimal("2.8"), rel=Decimal("1e-20")
    )
    assert exact.R / exact.s_R == pytest.approx(
        Decimal("2.771807649"), rel=Decimal("1e-20")
    )
    with pytest.raises(ConstantsRefused, match="“rough”"):
        interlaboratory(cells, "rough")


@pytest.mark.parametrize(
    ("cells", "words"),
    [
        ([], "0 laboratory shows no reproducibility"),
        ([["1", "2"]], "1 laboratory shows no reproducibility"),
        ([["1", "2"], []], "Laboratory 2 has no results: leave it out"),
        ([["1"], ["2"]], "Each laboratory has one result"),
    ],
)
def test_a_trial_needs_laboratories_and_repeats(cells, words):
    with pytest.raises(PrecisionRefused, match=words):
        interlaboratory([[Decimal(text) for text in cell] for cell in cells])


def test_one_laboratory_with_repeats_is_enough_for_the_repeatability():
    found = interlaboratory([[Decimal(1), Decimal(3)], [Decimal(2)]])

    assert found.s_r == Decimal(2).sqrt()


def test_a_variance_is_of_two_values_or_more():
    assert variance([Decimal(1), Decimal(3)]) == 2
    assert variance([Decimal(1), Decimal(2), Decimal(6)]) == 7
    with pytest.raises(PrecisionRefused, match="1 results have no variance"):
        variance([Decimal(1)])
