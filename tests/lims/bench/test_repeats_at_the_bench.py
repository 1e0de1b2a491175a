"""Repeats as they are typed: what is asked for opens the next set, what a rule set aside comes back with a corrected reading, and nothing is ever chosen."""

import pytest

from lims.bench.actions import entering
from lims.bench.models import Determination, Test
from lims.bench.reporting import active_value
from lims.record.refusals import BadInput, WrongMove
from tests.factories import plant

WORKED = "worked-penetration"
SET_ASIDE = Determination.State.SET_ASIDE
ACCEPTED = Determination.State.ACCEPTED


def the_test():
    return plant.the_test(WORKED)


def fill(by, cones, **more):
    """A whole set: conditions and three cone readings."""
    told = {"penetrometer": "PEN-01", "temperature": "25.1", "strokes_end": "08:52:10"}
    for key, text in told.items():
        entering.record_condition(test=the_test(), key=key, text=text, by=by, **more)
    for place, text in enumerate(cones.split(), 1):
        entering.record_reading(
            test=the_test(), slot=f"cone_{place}", text=text, by=by, **more
        )
    return the_test().determinations.order_by("-place").first()


def reject(by, it):
    return entering.set_aside(determination=it, reason="void seen at cup wall", by=by)


def the_set(place):
    return the_test().determinations.get(place=place)


@pytest.fixture
def rejected(tech_a):
    """The first set spreads over 8 and is set aside; fill A stands as set 2."""
    wide = fill(tech_a, "276 284 279")
    reject(tech_a, wide)
    fill(tech_a, "278 281 280")


@pytest.fixture
def disagreeing(rejected, tech_a):
    """Fill B as set 3 lies 8.67 above A."""
    fill(tech_a, "287 290 288")


def test_after_a_rejected_set_one_result_does_not_suffice(rejected):
    test = the_test()

    assert test.state == Test.State.DUE
    assert test.asks.startswith("A second fill is asked for: set 1")
    assert active_value(test) is None
    assert [it["value"] for it in test.figures] == ["second fill"]
    assert entering.current_determination(test) is None


def test_a_set_aside_for_another_cause_asks_for_no_second_fill(tech_a):
    barred = fill(tech_a, "279 281 280")
    entering.record_condition(
        test=the_test(), key="temperature", text="26", reason="read again", by=tech_a
    )
    barred.refresh_from_db()
    reject(tech_a, barred)
    fill(tech_a, "278 281 280")

    assert active_value(the_test()).reported == "280"


def test_a_wide_set_without_its_conditions_is_one_rejected_for_its_spread(tech_a):
    for place, text in enumerate(("276", "284", "279"), 1):
        entering.record_reading(
            test=the_test(), slot=f"cone_{place}", text=text, by=tech_a
        )
    reject(tech_a, the_set(1))
    fill(tech_a, "278 281 280")

    assert the_test().asks.startswith("A second fill is asked for")


def test_a_rule_that_sets_several_aside_is_kept_to_its_last_word(disagreeing, tech_a):
    for cones in ("330 330 330", "400 400 400", "281 281 281"):
        fill(tech_a, cones)

    value = active_value(the_test())
    assert len(value.rule) > 200
    assert "set aside; mean of the other 2" in value.rule
    for place in (3, 4, 5):
        assert the_set(place).reason.endswith("cause not yet found, look for it")


def test_who_set_a_set_aside_is_kept(rejected, tech_a):
    it = the_set(1)

    assert (it.state, it.by_rule, it.set_aside_by) == (SET_ASIDE, False, tech_a)
    assert the_set(2).set_aside_by is None


def test_a_third_result_begins_the_next_set(disagreeing, tech_a):
    assert "differ by 8.67, more than r 7" in the_test().asks

    entering.record_reading(test=the_test(), slot="cone_1", text="281", by=tech_a)

    assert [it.place for it in the_test().determinations.all()] == [1, 2, 3, 4]
    assert the_set(4).state == Determination.State.BEGUN


def test_the_value_names_its_rule_figures_constants_and_sources(disagreeing, tech_a):
    fill(tech_a, "281 283 282")

    value = active_value(the_test())
    assert value.reported == "281"
    assert value.rule.startswith("result 2 differs by 7.5 from the mean of the others")
    assert value.constants == "exact"
    assert value.sources == [the_set(2).pk, the_set(4).pk]
    decided = {it["what"]: it["value"] for it in value.figures}
    assert decided["repeatability"] == "7"
    assert decided["repeat rule"] == "ISO 4259"
    assert {it["edition"] for it in value.figures} == {"ASTM D217-21a"}
    assert the_test().figures == []


def test_what_the_rule_set_aside_stays_with_its_reason(disagreeing, tech_a):
    fill(tech_a, "281 283 282")

    it = the_set(3)
    assert (it.state, it.by_rule, it.set_aside_by) == (SET_ASIDE, True, None)
    assert it.reason.startswith("set aside by ISO 4259: ")
    assert it.reason.endswith("cause not yet found, look for it")
    assert it.readings.count() == 3


def test_a_corrected_reading_brings_a_set_back(disagreeing, tech_a):
    fill(tech_a, "281 283 282")

    for slot, text in (("cone_1", "281"), ("cone_2", "284"), ("cone_3", "282")):
        entering.record_reading(
            test=the_test(),
            slot=slot,
            text=text,
            reason="read from the wrong line",
            determination=the_set(3),
            by=tech_a,
        )

    assert (the_set(3).state, the_set(3).reason) == (ACCEPTED, "")
    value = active_value(the_test())
    assert value.sources == [the_set(place).pk for place in (2, 3, 4)]
    assert value.reported == "281"  # 279.67, 282.33 and 282


def test_a_corrected_condition_of_an_earlier_set_counts_too(disagreeing, tech_a):
    entering.record_condition(
        test=the_test(),
        key="temperature",
        text="26",
        reason="read from the wrong line",
        determination=the_set(2),
        by=tech_a,
    )

    assert the_set(2).state == Determination.State.BEGUN
    assert the_test().asks.startswith("A second fill is asked for")


def test_an_earlier_set_is_not_corrected_without_a_reason(disagreeing, tech_a):
    with pytest.raises(BadInput):
        entering.record_reading(
            test=the_test(),
            slot="cone_1",
            text="281",
            determination=the_set(2),
            by=tech_a,
        )


def test_what_a_person_set_aside_is_not_corrected(rejected, tech_a):
    with pytest.raises(WrongMove, match="Set 1 is set aside"):
        entering.record_reading(
            test=the_test(),
            slot="cone_1",
            text="281",
            reason="read again",
            determination=the_set(1),
            by=tech_a,
        )


def test_a_set_of_another_test_is_refused(rejected, tech_a):
    with pytest.raises(WrongMove, match="does not belong"):
        entering.record_reading(
            test=plant.the_test("unworked-penetration"),
            slot="cone_1",
            text="281",
            determination=the_set(2),
            by=tech_a,
        )


def test_what_a_person_set_aside_never_comes_back(disagreeing, tech_a):
    fill(tech_a, "281 283 282")

    assert (the_set(1).state, the_set(1).reason) == (SET_ASIDE, "void seen at cup wall")
    assert the_set(1).pk not in active_value(the_test()).sources


def test_a_further_determination_that_no_rule_asks_for_is_refused(tech_a):
    fill(tech_a, "279 281 280")

    with pytest.raises(BadInput):  # it would change what is there
        entering.record_reading(test=the_test(), slot="cone_1", text="270", by=tech_a)
    with pytest.raises(WrongMove):
        reject(tech_a, the_set(1))
    assert the_test().determinations.count() == 1


def test_what_the_rule_set_aside_is_not_set_aside_again(disagreeing, tech_a):
    fill(tech_a, "281 283 282")

    with pytest.raises(WrongMove, match="set aside already"):
        reject(tech_a, the_set(3))


def test_a_wide_set_among_the_repeats_is_set_aside_and_the_next_is_begun(
    disagreeing, tech_a
):
    wide = fill(tech_a, "276 284 279")

    fresh = reject(tech_a, wide)

    assert fresh.place == 5
    assert "differ by 8.67" in the_test().asks


def test_an_earlier_set_set_aside_begins_none_while_another_is_open(
    disagreeing, tech_a
):
    entering.record_reading(test=the_test(), slot="cone_1", text="281", by=tech_a)
    entering.record_reading(
        test=the_test(),
        slot="cone_1",
        text="270",
        reason="figures exchanged",
        determination=the_set(2),
        by=tech_a,
    )

    open_one = reject(tech_a, the_set(2))

    assert open_one.place == 4
    assert the_test().determinations.count() == 4


def test_a_correction_that_makes_results_disagree_withdraws_the_value(rejected, tech_a):
    fill(tech_a, "279 281 280")
    assert active_value(the_test()).reported == "280"

    entering.record_reading(
        test=the_test(), slot="cone_1", text="291", reason="typing slip", by=tech_a
    )
    for slot, text in (("cone_2", "290"), ("cone_3", "289")):
        entering.record_reading(
            test=the_test(), slot=slot, text=text, reason="typing slip", by=tech_a
        )

    test = the_test()
    assert active_value(test) is None
    assert test.state == Test.State.DUE
    assert "more than r 7" in test.asks


def test_a_result_outside_the_plausible_range_is_a_question_and_stands(tech_a):
    for key, text in (
        ("penetrometer", "PEN-01"),
        ("temperature", "25.1"),
        ("strokes_end", "08:52:10"),
    ):
        entering.record_condition(test=the_test(), key=key, text=text, by=tech_a)
    for slot, text in (("cone_1", "510"), ("cone_2", "511"), ("cone_3", "512")):
        entering.record_reading(
            test=the_test(), slot=slot, text=text, again=text, by=tech_a
        )

    assert active_value(the_test()).reported == "511"
    assert "The result 511 lies outside 85 to 500 × 0.1 mm, where" in " ".join(
        the_set(1).asks
    )


@pytest.mark.parametrize("cones", ["279 281 280", "500 500 500"])
def test_a_plausible_result_is_not_asked_about(tech_a, cones):
    fill(tech_a, cones)

    assert the_set(1).asks == []
