from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.separation import MassRefused, mass_percent
from tests.specs.methods.bench import bar_keys, carried_out

GRAMS = st.decimals("0.01", "20", places=2)


def separated(sample, oil, **parameters):
    readings = {"sample": sample, "oil": oil}
    return carried_out("oil separation, cone sieve", readings, **parameters)


def test_028_g_from_1002_g_is_28_percent():
    outcome = separated("10.02", "0.28")

    assert outcome.value.value.quantize(Decimal("0.001")) == Decimal("2.794")
    assert outcome.reported.canonical == "2.8"
    assert outcome.says == "0.28 g of oil from 10.02 g of grease"
    assert outcome.can_count


def test_the_step_of_the_report_is_a_setting():
    assert separated("10.02", "0.28", step="0.01").reported.canonical == "2.79"


@given(GRAMS, GRAMS)
def test_found_and_remaining_make_up_the_whole(taken, part):
    found = mass_percent(taken, found=part)
    remaining = mass_percent(taken, remaining=part)

    assert found + remaining == 100


@pytest.mark.parametrize(("sample", "oil"), [("10.02", ""), ("", "0.28"), ("", "")])
def test_without_both_masses_there_is_no_value(sample, oil):
    outcome = separated(sample, oil)

    assert (outcome.complete, outcome.value) == (False, None)
    assert outcome.says.endswith("of 2 masses")


@pytest.mark.parametrize(
    ("sample", "oil"),
    [
        ("0", "0.28"),
        ("-1", "0.28"),
        ("10.02", "-0.28"),
        (">10", "0.28"),
        ("10", "<0.1"),
    ],
)
def test_masses_without_sense_cannot_count(sample, oil):
    outcome = separated(sample, oil)

    assert bar_keys(outcome) == ["mass"]
    assert outcome.value is None
    assert not outcome.can_count


def test_more_oil_than_grease_cannot_count_and_is_shown():
    outcome = separated("0.28", "10.02")

    assert bar_keys(outcome) == ["mass"]
    assert outcome.value is not None
    assert not outcome.can_count


def test_a_sample_with_its_mark_left_out_is_questioned():
    outcome = separated("1002", "0.28")

    assert "outside 5 to 20" in outcome.asks[0]


@pytest.mark.parametrize(
    "masses",
    [
        {},
        {"found": Decimal(1), "remaining": Decimal(9)},
        {"found": Decimal(-1)},
        {"remaining": Decimal(-1)},
    ],
)
def test_a_percentage_needs_one_mass_not_below_nought(masses):
    with pytest.raises(MassRefused):
        mass_percent(Decimal(10), **masses)


def test_nothing_has_no_percentage():
    with pytest.raises(MassRefused, match="above 0"):
        mass_percent(Decimal(0), found=Decimal(1))
