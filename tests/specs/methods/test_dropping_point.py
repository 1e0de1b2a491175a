from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.drops import (
    BLOCK,
    DroppingPointRefused,
    Pair,
    check_order,
    corrected,
    from_pairs,
)
from specs.methods.outcome import ParametersRefused
from tests.specs.methods.bench import bar_keys, carried_out


def runs(*pairs):
    readings = {}
    for run, (observed, block) in enumerate(pairs, 1):
        readings |= {f"observed_{run}": observed, f"block_{run}": block}
    return readings


ON_DP_01 = {"apparatus": "DP-01"}


def on_block(*pairs, **parameters):
    return carried_out(
        "dropping point, block", runs(*pairs), conditions=ON_DP_01, **parameters
    )


def test_no_result_counts_before_the_apparatus_is_named():
    outcome = carried_out("dropping point, block", runs(("186", "232"), ("188", "232")))

    assert not outcome.can_count
    assert outcome.reported.canonical == "202"
    assert "Apparatus is still to be given." in outcome.asks


def in_bath(*pairs, **parameters):
    return carried_out(
        "dropping point, bath", runs(*pairs), conditions=ON_DP_01, **parameters
    )


@given(st.integers(50, 316), st.integers(0, 100))
def test_a_corrected_dropping_point_lies_between_cup_and_block(observed, more):
    found = corrected(BLOCK, Decimal(observed), Decimal(observed + more))

    assert observed <= found <= observed + more
    assert 3 * found == 2 * observed + (observed + more)


def test_two_runs_on_the_block_give_202():
    outcome = on_block(("186", "232"), ("188", "232"))

    assert outcome.reported.canonical == "202"
    assert outcome.value.canonical == "202"
    assert outcome.parts["run_1"].startswith("201.33")
    assert outcome.says == "mean of 201.33 and 202.67"
    assert outcome.can_count


def test_a_mistyped_block_is_questioned_and_a_corrected_one_is_not():
    mistyped = on_block(("264", "268"), ("262", "268"))
    corrected_runs = on_block(("264", "288"), ("262", "288"))

    assert mistyped.reported.canonical == "265"
    assert mistyped.asks[0] == "268 °C is not a set point of the block: read it again."
    assert corrected_runs.reported.canonical == "271"
    assert corrected_runs.asks == ()


def test_the_block_may_stand_three_degrees_from_its_set_point():
    assert on_block(("186", "235"), ("188", "229")).asks == ()
    assert len(on_block(("186", "236"), ("188", "228")).asks) == 2
    assert on_block(("186", "240"), ("188", "240"), set_points="240").asks == ()


def test_a_block_colder_than_the_cup_cannot_count():
    outcome = on_block(("264", "232"), ("262", "288"))

    assert bar_keys(outcome) == ["order"]
    assert (
        "the block at 232 °C is colder than the cup at 264 °C"
        in outcome.bars[0].sentence
    )
    assert outcome.value is not None
    assert not outcome.can_count


def test_a_bath_colder_than_the_tube_cannot_count():
    assert bar_keys(in_bath(("185", "182"))) == ["order"]


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("spread_limit", "0"),
        ("spread_limit", "<6"),
        ("spread_limit", "six"),
        ("set_points", "121, 232"),
        ("set_points", "121 >232"),
    ],
)
def test_a_setting_that_cannot_be_used_is_refused(key, text):
    with pytest.raises(ParametersRefused, match="cannot be"):
        on_block(("246", "288"), ("262", "288"), **{key: text})


def test_runs_too_far_apart_ask_for_two_fresh_ones():
    apart = on_block(("246", "288"), ("262", "288"), spread_limit="6")

    assert not apart.accepted
    assert apart.asks == (
        "Make two fresh runs: these differ by 10.67 °C, more than the house limit of 6.",
    )
    assert on_block(("246", "288"), ("262", "288")).accepted
    assert on_block(("253", "288"), ("262", "288"), spread_limit="6").accepted


@pytest.mark.parametrize("word", ["none", "None", " NONE "])
def test_no_drop_is_entered_as_a_word(word):
    outcome = on_block((word, "316"), (word, "288"))

    assert outcome.reported.canonical == outcome.value.canonical == ">288"
    assert outcome.says == "no drop up to 288 °C"
    assert outcome.parts == {"run_1": ">316", "run_2": ">288"}
    assert outcome.can_count


# The published edge makes the value of such a pair the smallest bound, and shows it;
# but two runs that contradict each other are no result, so the bench takes none.
def test_a_drop_in_one_run_and_none_in_the_other_are_shown_and_not_accepted():
    outcome = on_block(("270", "288"), ("none", "288"))

    assert outcome.reported.canonical == ">288"
    assert not outcome.accepted
    assert not outcome.can_count
    assert outcome.asks == (
        "Take two fresh runs: one run gave no drop, the other a drop.",
    )
    assert outcome.says == "a drop in one run, none in the other"


@pytest.mark.parametrize("bound", [">288", ">250", "<250"])
def test_a_bound_of_the_observed_temperature_is_not_taken_for_no_drop(bound):
    outcome = on_block((bound, "288"), ("none", "288"))

    (bar,) = outcome.bars
    assert bar.sentence == (
        "Stored, cannot count: a bound of the observed temperature says no "
        "dropping point."
    )
    assert "write none as observed" in bar.advice
    assert (outcome.complete, outcome.value, outcome.can_count) == (False, None, False)


def test_a_bound_of_the_block_temperature_is_told_too():
    (bar,) = on_block(("186", "232"), ("188", ">232")).bars

    assert "a bound of the block temperature" in bar.sentence


def test_the_bath_method_means_the_two_thermometers_and_rounds_to_even():
    outcome = in_bath(("182", "185"))

    assert outcome.value.canonical == "183.5"
    assert outcome.reported.canonical == "184"
    assert outcome.says == "calculated 183.5"
    assert in_bath(("181", "184")).reported.canonical == "182"
    assert in_bath(("182", "184"), ("183", "186"), runs="2").reported.canonical == "184"


@pytest.mark.parametrize(
    "pairs",
    [
        [("186", "232")],
        [("186", "232"), ("188", "")],
        [("186", "232"), ("", "232")],
        [("186", "232"), ("<188", "232")],
        [("186", "232"), ("188", ">232")],
        [("186", "232"), ("nothing", "232")],
    ],
)
def test_a_run_without_both_temperatures_gives_no_value(pairs):
    outcome = on_block(*pairs)

    assert (outcome.complete, outcome.value, outcome.can_count) == (False, None, False)
    assert outcome.says == "1 of 2 runs"


def test_the_determinations_are_not_rounded_before_the_mean():
    drops = from_pairs(
        BLOCK, [Pair(Decimal(190), Decimal(232)), Pair(Decimal(191), Decimal(231))]
    )

    assert drops.mean == Fraction(1225, 6)


def test_an_unknown_method_and_no_pair_are_refused():
    with pytest.raises(DroppingPointRefused, match="name D2265 or D566"):
        corrected("D3954", Decimal(1), Decimal(2))
    with pytest.raises(DroppingPointRefused, match="no pair"):
        from_pairs(BLOCK, [])


def test_cup_and_block_may_be_equally_warm():
    check_order([Pair(Decimal(232), Decimal(232)), Pair(None, Decimal(100))])
