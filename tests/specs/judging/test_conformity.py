from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.judging.conformity import (
    ABSOLUTE,
    PROCEDURES,
    ROUNDING,
    ProcedureMissing,
    judge,
    judge_rating,
)
from specs.judging.rounding import round_to_step
from specs.judging.verdicts import Verdict
from specs.judging.zones import Zone
from specs.methods.ratings import COPPER_SCALE
from specs.numbers import Number, read

MET, NOT_MET, NOT_EVALUATED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_EVALUATED
VALUES = st.decimals("-50", "350", places=2)
LIMITS = st.decimals("-50", "350", places=1)


def slowly_judged(value, lower, upper, procedure):
    """The obvious twin for plain numbers: round by hand where asked, then compare."""
    bad = False
    for limit, breaks in ((lower, Decimal.__lt__), (upper, Decimal.__gt__)):
        if limit is None:
            continue
        number = value
        if procedure == ROUNDING:
            places = len(limit.partition(".")[2])
            number = round(value, places)  # half to even on a Decimal
        bad = bad or breaks(number, Decimal(limit))
    return NOT_MET if bad else MET


@given(
    VALUES,
    st.none() | LIMITS.map(str),
    st.none() | st.integers(-50, 350).map(str),
    st.sampled_from(PROCEDURES),
)
def test_plain_numbers_agree_with_the_obvious_twin(value, lower, upper, procedure):
    found = judge(Number.of(value), lower, upper, procedure)

    has_none = lower is None and upper is None
    if has_none or (lower and upper and Decimal(lower) > Decimal(upper)):
        assert found.verdict is NOT_EVALUATED
    else:
        assert found.verdict is slowly_judged(value, lower, upper, procedure)


@given(VALUES, LIMITS, LIMITS, st.sampled_from(PROCEDURES))
def test_comma_and_point_give_the_same_verdict(value, low, high, procedure):
    text, lower, upper = f"{value:f}", str(min(low, high)), str(max(low, high))

    with_point = judge(read(text), lower, upper, procedure)
    with_comma = judge(
        read(text.replace(".", ",")),
        lower.replace(".", ","),
        upper.replace(".", ","),
        procedure,
    )

    assert with_comma == with_point


@given(
    st.builds(Number.of, VALUES, st.sampled_from(["", "<", ">"])),
    LIMITS,
    LIMITS,
    st.decimals(0, 50, places=1),
    st.sampled_from(PROCEDURES),
)
def test_wider_limits_never_turn_met_into_not_met(value, low, high, more, procedure):
    lower, upper = min(low, high), max(low, high)

    narrow = judge(value, str(lower), str(upper), procedure)
    wide = judge(value, str(lower - more), str(upper + more), procedure)

    if narrow.verdict is MET:
        assert wide.verdict is MET


@given(
    st.sampled_from("<>"),
    st.integers(0, 20),
    st.integers(0, 20),
    st.sampled_from(PROCEDURES),
    st.decimals("0.01", "30", places=2),
)
def test_a_decided_bound_is_right_for_every_number_beyond_it(
    sign, bound, limit, procedure, beyond
):
    true_value = Number.of(bound + (beyond if sign == ">" else -beyond))

    for lower, upper in ((None, str(limit)), (str(limit), None)):
        found = judge(Number.of(bound, sign), lower, upper, procedure).verdict
        if found is not NOT_EVALUATED:
            assert judge(true_value, lower, upper, ABSOLUTE).verdict is found


def test_compared_is_the_value_as_rounded_for_the_nearest_limit():
    found = judge(read("1.04"), "0.50", "1", ROUNDING)

    assert (found.compared, found.limit) == ("1", "1")
    assert judge(read("0.444"), "0.50", "1", ROUNDING).compared == "0.44"


def test_the_absolute_procedure_compares_the_unrounded_mean():
    third = Number.stored("295.3333333333333333333333333")

    found = judge(third, "265", "295", ABSOLUTE)

    assert found.verdict is NOT_MET
    assert found.compared == third.canonical
    assert judge(third, "265", "295", ROUNDING).verdict is MET


@pytest.mark.parametrize("procedure", [None, "", "guess", "Rounding"])
def test_a_line_must_name_a_procedure(procedure):
    with pytest.raises(ProcedureMissing, match="a line must name one"):
        judge(read("280"), "265", "295", procedure)


@pytest.mark.parametrize(
    ("lower", "upper", "words"),
    [
        (None, None, "no limit"),
        ("", "  ", "no limit"),
        ("295", "265", "above the upper limit"),
        ("max", None, "is no number"),
        (None, "<295", "plain number"),
        (None, "36 000", "if you mean 36000"),
    ],
)
@pytest.mark.parametrize("procedure", PROCEDURES)
def test_limits_without_sense_are_not_evaluated(lower, upper, words, procedure):
    found = judge(read("280"), lower, upper, procedure)

    assert (found.verdict, found.compared) == (NOT_EVALUATED, None)
    assert words in found.why


@pytest.mark.parametrize("value", ["NaN", "sNaN", "Infinity", "-Infinity"])
def test_a_number_that_is_not_finite_is_not_evaluated(value):
    for procedure in PROCEDURES:
        broken = Number(text="?", value=Decimal(value))
        assert judge(broken, "1", "2", procedure).verdict is NOT_EVALUATED


def test_an_unknown_tie_or_step_is_not_evaluated():
    assert judge(read("1"), None, "2", ABSOLUTE, tie="odd").verdict is NOT_EVALUATED
    assert judge(read("1"), None, "2", ROUNDING, step="0").verdict is NOT_EVALUATED
    assert judge(read("1"), None, "2", ROUNDING, step="x").verdict is NOT_EVALUATED


def test_a_step_stands_in_for_the_last_digit_of_the_limit():
    found = judge(read("35950"), "36000", None, ROUNDING, step="100")

    assert (found.verdict, found.compared) == (MET, "36000")
    assert Decimal("36000") == round_to_step(Decimal(35950), "100")


@pytest.mark.parametrize(
    ("rating", "limit", "verdict"),
    [
        ("1a", "1b", MET),
        ("1B", "1b", MET),
        ("2a", "1b", NOT_MET),
        ("4c", "4c", MET),
        ("5a", "1b", NOT_EVALUATED),
        ("1a", "good", NOT_EVALUATED),
        ("", "1b", NOT_EVALUATED),
    ],
)
def test_a_rating_is_held_against_the_order_of_its_scale(rating, limit, verdict):
    assert judge_rating(rating, limit, COPPER_SCALE).verdict is verdict


def test_a_finding_is_a_rating_of_two_marks():
    assert judge_rating("met", "met", ("met", "not met")).verdict is MET
    assert judge_rating("not met", "met", ("met", "not met")).verdict is NOT_MET


@pytest.mark.parametrize(
    ("rating", "limit", "stranger"), [("5a", "1b", "5a"), ("1a", "good", "good")]
)
def test_the_mark_that_is_not_on_the_scale_is_named(rating, limit, stranger):
    found = judge_rating(rating, limit, COPPER_SCALE)

    assert found.why.startswith(f"“{stranger}” is not on the scale 1a, 1b")


@pytest.mark.parametrize(("procedure", "named"), [(None, "“”"), ("guess", "“guess”")])
def test_the_procedure_that_is_none_is_named(procedure, named):
    with pytest.raises(ProcedureMissing, match=f"{named} is no procedure"):
        judge(read("280"), "265", "295", procedure)


def test_without_a_scale_no_rating_is_evaluated():
    found = judge_rating("1a", "1b", ())

    assert found.verdict is NOT_EVALUATED
    assert "not on the scale" in found.why


@given(
    st.builds(Number.of, VALUES, st.sampled_from(["", "<", ">"])),
    LIMITS,
    LIMITS,
    st.sampled_from(PROCEDURES),
)
def test_a_zone_that_ends_at_the_limits_changes_nothing(value, one, other, procedure):
    lower, upper = sorted((one, other))

    found = judge(value, str(lower), str(upper), procedure, zone=Zone(lower, upper))

    assert found == judge(value, str(lower), str(upper), procedure)


def test_a_zone_moves_the_edges_and_leaves_the_steps():
    zone = Zone(Decimal("268.55"), Decimal("291.45"))

    found = judge(read("291.49"), "265", "295", ROUNDING, zone=zone)

    assert (found.verdict, found.compared, found.limit) == (MET, "291", "295")
    assert judge(read("292"), "265", "295", ROUNDING, zone=zone).verdict is NOT_MET
    assert judge(read("268"), "265", "295", ROUNDING, zone=zone).verdict is NOT_MET


def test_an_open_end_of_a_zone_leaves_the_limit_itself():
    zone = Zone(Decimal("268.55"), None)

    assert judge(read("295"), "265", "295", ROUNDING, zone=zone).verdict is MET
    assert judge(read("296"), "265", "295", ROUNDING, zone=zone).verdict is NOT_MET
    other = Zone(None, Decimal("291.45"))
    assert judge(read("265"), "265", "295", ROUNDING, zone=other).verdict is MET
    assert judge(read("264"), "265", "295", ROUNDING, zone=other).verdict is NOT_MET


def test_of_two_limits_as_near_the_upper_one_rounds():
    assert judge(read("280"), "265", "295", ROUNDING).limit == "295"
    assert judge(read("279.9"), "265", "295", ROUNDING).limit == "265"
    assert judge(read("280.1"), "265", "295", ROUNDING).limit == "295"


@pytest.mark.parametrize(
    ("value", "lower", "upper"), [(">295.2", None, "295"), ("<264.8", "265", None)]
)
def test_a_bound_beyond_the_limit_itself_is_not_brought_back_by_rounding(
    value, lower, upper
):
    assert judge(read(value), lower, upper, ROUNDING).verdict is NOT_MET
    assert judge(read(value[1:]), lower, upper, ROUNDING).verdict is MET
