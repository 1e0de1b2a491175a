from decimal import Decimal
from fractions import Fraction

import pytest

from specs.judging.constants import ConstantsRefused
from specs.judging.repeats import (
    ISO_4259,
    ISO_5725_6,
    ONE_MORE,
    ONE_THEN_FOURTH,
    REPORT,
    ROUTES,
    SCHOOLS,
    TEST_AGAIN,
    TWO_MORE,
    RepeatRefused,
    critical_range_factor,
    repeat,
)

SEVEN = Decimal(7)
WAYS = [(ISO_4259, ""), *((ISO_5725_6, route) for route in ROUTES)]

# Worked penetration of a lot: three cone readings a set.
A, B, C, D = (
    Fraction(sum(readings), 3)
    for readings in ((278, 281, 280), (287, 290, 288), (281, 283, 282), (282, 284, 283))
)


def of(*texts):
    return [Decimal(text) for text in texts]


def by_ranges(*texts, route=TWO_MORE, constants="printed", r=SEVEN):
    return repeat(ISO_5725_6, of(*texts), r, route=route, constants=constants)


def by_divergence(*texts, r=SEVEN):
    return repeat(ISO_4259, of(*texts), r)


def test_two_sets_that_disagree_and_a_third_by_iso_4259():
    second = repeat(ISO_4259, [A, B], SEVEN)
    third = repeat(ISO_4259, [A, B, C], SEVEN)

    assert (second.outcome, second.value, second.more) == (TEST_AGAIN, None, 1)
    assert second.says == (
        "results 1 and 2 differ by 8.67, more than 7 (ISO 4259, r = 7): "
        "one more is asked for"
    )
    assert (third.outcome, third.value, third.statistic) == (
        REPORT,
        Fraction(1685, 6),
        "mean",
    )
    assert (third.set_aside, third.more) == ((1,), 0)
    assert third.says == (
        "result 2 differs by 7.5 from the mean of the others, more than 6.06 "
        "(ISO 4259, r = 7): set aside; mean of the other 2"
    )
    assert round(third.value, 2) == Fraction("280.83")


def test_two_sets_that_disagree_and_two_more_by_iso_5725_6():
    def at(*sets):
        return repeat(
            ISO_5725_6, sets, SEVEN, route=ONE_THEN_FOURTH, constants="printed"
        )

    second, third, fourth = at(A, B), at(A, B, C), at(A, B, C, D)

    assert (second.outcome, second.more) == (TEST_AGAIN, 1)
    assert (third.outcome, third.more, third.value) == (TEST_AGAIN, 1, None)
    assert third.says == (
        "range of 3 results 8.67, more than 8.25 (ISO 5725-6, one more, then a fourth; "
        "r = 7, printed constants): one more is asked for"
    )
    assert (fourth.outcome, fourth.value, fourth.statistic) == (
        REPORT,
        Fraction("283.25"),
        "mean",
    )
    assert (fourth.set_aside, fourth.more) == ((), 0)
    assert fourth.says == (
        "range of 4 results 8.67, not more than 9 (ISO 5725-6, one more, then a fourth; "
        "r = 7, printed constants): mean"
    )


@pytest.mark.parametrize(("school", "route"), WAYS)
def test_one_result_is_reported_as_it_is(school, route):
    found = repeat(school, of("280"), SEVEN, route=route)

    assert (found.outcome, found.value, found.more) == (REPORT, 280, 0)
    assert found.says == "one result, nothing to compare it with"


@pytest.mark.parametrize(("school", "route"), WAYS)
def test_two_results_exactly_r_apart_agree(school, route):
    agreed = repeat(school, of("190", "197"), SEVEN, route=route)
    apart = repeat(school, of("190", "197.0000001"), SEVEN, route=route)

    assert (agreed.outcome, agreed.value) == (REPORT, Fraction("193.5"))
    assert agreed.statistic == "mean"
    assert "7, not more than 7" in agreed.says
    assert apart.outcome == TEST_AGAIN
    assert "7.0000001, more than 7 " in apart.says
    assert (apart.value, apart.statistic, apart.set_aside) == (None, "", ())


def test_the_routes_ask_for_two_or_for_one():
    asked = {route: by_ranges("190", "199", route=route).more for route in ROUTES}

    assert asked == {TWO_MORE: 2, ONE_MORE: 1, ONE_THEN_FOURTH: 1}
    assert by_ranges("190", "199").says == (
        "the two results differ by 9, more than 7 (ISO 5725-6, two more; r = 7, "
        "printed constants): two more are asked for"
    )


def test_after_the_third_of_two_more_a_fourth_is_still_asked_for():
    found = by_ranges("190", "198", "194")

    assert (found.outcome, found.more) == (TEST_AGAIN, 1)
    assert "range of 3 results 8, more than 7" in found.says


@pytest.mark.parametrize("route", ROUTES)
def test_three_results_within_r_are_reported_whatever_the_route(route):
    found = by_ranges("190", "197", "193", route=route)

    assert (found.outcome, found.value) == (REPORT, Fraction(580, 3))


@pytest.mark.parametrize(
    ("texts", "statistic", "value"),
    [
        (("190", "198.25", "193"), "mean", "193.75"),
        (("190", "198.250001", "193"), "median", "193"),
    ],
)
def test_three_results_at_the_critical_range_of_three(texts, statistic, value):
    found = by_ranges(*texts, route=ONE_MORE)

    assert (found.outcome, found.statistic) == (REPORT, statistic)
    assert found.value == Fraction(value)


@pytest.mark.parametrize("route", ROUTES)
@pytest.mark.parametrize(
    ("texts", "statistic", "value"),
    [
        (("190", "199", "193", "196"), "mean", "194.5"),
        (("190", "199.000001", "193", "196"), "median", "194.5"),
        (("188", "199", "193", "197"), "median", "195"),
    ],
)
def test_four_results_at_the_critical_range_of_four(texts, statistic, value, route):
    found = by_ranges(*texts, route=route)

    assert (found.outcome, found.statistic, found.more) == (REPORT, statistic, 0)
    assert found.value == pytest.approx(Fraction(value), abs=Fraction(1, 10**6))


def test_five_results_end_in_the_middle_one():
    # The critical range of five is 3.9/2.8 r = 9.75.
    within = by_ranges("190", "199.75", "191", "192", "193")
    beyond = by_ranges("190", "199.76", "191", "192", "193")

    assert (within.statistic, within.value) == ("mean", Fraction("193.15"))
    assert (beyond.statistic, beyond.value) == ("median", 192)
    assert "range of 5 results 9.76, more than 9.75" in beyond.says
    assert beyond.says.endswith(": median")


def test_the_constants_decide_between_the_limits_of_both():
    texts = ("190", "199.1", "191", "192")

    assert by_ranges(*texts).statistic == "median"
    assert by_ranges(*texts, constants="exact").statistic == "mean"
    assert "exact constants" in by_ranges(*texts, constants="exact").says
    assert "9.18" in by_ranges(*texts, constants="exact").says


def test_without_a_route_only_what_needs_none_is_decided():
    assert by_ranges("190", "196", route="").value == 193
    assert by_ranges("190", "199", "193", "196", route="").value == Fraction("194.5")
    assert "(ISO 5725-6; r = 7" in by_ranges("190", "196", route="").says
    for texts in (("190", "199"), ("190", "199", "193")):
        with pytest.raises(RepeatRefused, match="r = 7 need a route by ISO 5725-6"):
            by_ranges(*texts, route="")


def test_iso_4259_knows_no_route():
    results = of("190", "199")

    assert {
        repeat(ISO_4259, results, SEVEN, route=route) for route in ("", *ROUTES)
    } == {by_divergence("190", "199")}


def test_iso_4259_sets_aside_one_result_after_the_other():
    found = by_divergence("280", "320", "281", "282", "300")

    assert (found.value, found.set_aside) == (281, (1, 4))
    assert found.says == (
        "result 2 differs by 34.25 from the mean of the others, more than 5.53 and "
        "result 5 differs by 19 from the mean of the others, more than 5.72 "
        "(ISO 4259, r = 7): set aside; mean of the other 3"
    )


def test_iso_4259_at_its_limit_for_nine_results():
    # 9/(2 × 8) is a square, so the limit of nine is 0.75 r without a rest.
    twelve = Decimal(12)
    within = by_divergence(*["0"] * 8, "9", r=twelve)
    beyond = by_divergence(*["0"] * 8, "9.000001", r=twelve)

    assert (within.value, within.set_aside) == (1, ())
    assert "no result differs by more than 9 from the mean" in within.says
    assert (beyond.value, beyond.set_aside) == (0, (8,))
    assert "9.000001 from the mean of the others, more than 9 " in beyond.says


def test_iso_4259_does_not_choose_between_two_ends_equally_far():
    found = by_divergence("280", "290", "285")

    assert (found.outcome, found.more, found.set_aside) == (TEST_AGAIN, 1, ())
    assert found.says == (
        "results 1 and 2 lie equally far from the mean of the others, by 7.5, "
        "more than 6.06, so that none can be set aside (ISO 4259, r = 7): "
        "one more is asked for"
    )


def test_iso_4259_sets_equal_results_aside_one_by_one():
    found = by_divergence("280", "300", "280", "300", "280", "280", "280")

    assert (found.value, found.set_aside) == (280, (1, 3))


def test_two_left_that_disagree_are_tested_again_and_nothing_is_set_aside():
    found = by_divergence("200", "280", "300")

    assert (found.outcome, found.value, found.more) == (TEST_AGAIN, None, 1)
    assert found.set_aside == ()
    assert found.says == (
        "result 1 differs by 90 from the mean of the others, more than 6.06; "
        "results 2 and 3 differ by 20, more than 7 (ISO 4259, r = 7): "
        "one more is asked for"
    )


@pytest.mark.parametrize(
    ("kept", "odd", "is_doubted"), [(17, 2, False), (17, 3, True), (18, 3, False)]
)
def test_more_than_two_set_aside_of_twenty_put_the_procedure_in_doubt(
    kept, odd, is_doubted
):
    found = by_divergence(*["280"] * kept, *(str(400 * n) for n in range(1, odd + 1)))

    assert len(found.set_aside) == odd
    assert ("suspect the procedure or the sample" in found.says) is is_doubted


def test_no_results_are_refused():
    for school in SCHOOLS:
        with pytest.raises(RepeatRefused, match="no result yet: record one"):
            repeat(school, [], SEVEN)


@pytest.mark.parametrize("r", ["0", "-7", "NaN", "sNaN", "Infinity"])
def test_a_repeatability_is_above_zero(r):
    with pytest.raises(RepeatRefused, match=f"repeatability of {r} allows no"):
        repeat(ISO_4259, of("280"), Decimal(r))


def test_an_unknown_school_route_or_set_of_constants_is_named():
    with pytest.raises(RepeatRefused, match="“iso 4259” is no repeat rule: name ISO"):
        repeat("iso 4259", of("280"), SEVEN)
    with pytest.raises(
        RepeatRefused, match="“three more” is no route: name one of two"
    ):
        repeat(ISO_5725_6, of("280"), SEVEN, route="three more")
    with pytest.raises(ConstantsRefused, match="“rough”"):
        repeat(ISO_5725_6, of("280"), SEVEN, route=TWO_MORE, constants="rough")


def test_critical_range_factors_by_both_sets_of_constants():
    assert critical_range_factor(4) == Decimal("3.633159575")
    assert critical_range_factor(4, "printed") == Decimal("3.6")
