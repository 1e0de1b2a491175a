"""What is said of a curve holds for that curve and its lines alone; a rejected one never counts."""

import pytest

from lims.bench.actions.entering import record_condition, set_aside
from lims.bench.actions.traces import import_trace, judge_curve
from lims.bench.evaluation import held, picture_of
from lims.bench.models import Condition, Determination, Test
from lims.bench.reporting import active_value
from lims.bench.rules import NeedsReason
from lims.record import verify
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import curves, plant

State = Determination.State


@pytest.fixture
def induction(works):
    return curves.ask_for_induction()


def the_test():
    return plant.the_test(curves.INDUCTION)


def run(minutes, by, **more):
    return curves.carry_out(the_test(), curves.run_of(minutes), by=by, **more)


def sets():
    return [(it.state, it.by_rule) for it in the_test().determinations.all()]


# ---- What is said of a curve


def test_a_curve_that_nobody_has_seen_does_not_count(induction, tech_a):
    it = import_trace(
        test=the_test(), name="a.csv", content=curves.run_of(23), by=tech_a
    )
    for key, text in {
        "calorimeter": "DSC-1",
        "temperature": "180",
        **curves.TIMES,
    }.items():
        it = record_condition(test=the_test(), key=key, text=text, by=tech_a)

    assert it.reported == "23.0"
    assert it.state == State.BEGUN
    assert it.asks == ["Look at the curve with both lines, then accept or reject it."]


def test_a_rejected_curve_does_not_count(induction, tech_a):
    it = run(23, tech_a, answer="rejected")

    assert it.state == State.BEGUN
    assert it.bars[0]["sentence"] == (
        "Stored, cannot count: the curve was seen and rejected."
    )
    assert the_test().asks == ""


def test_a_rejected_curve_does_not_count_beside_an_accepted_one(induction, tech_a):
    run(23, tech_a, answer="rejected")
    set_aside(determination=the_test().determinations.get(), reason="spike", by=tech_a)
    run(24, tech_a)
    assert active_value(the_test()) is None

    run(25, tech_a)

    assert active_value(the_test()).reported == "24.5"


def test_an_accepted_curve_that_is_rejected_later_withdraws_the_result(
    induction, tech_a
):
    it = run(23, tech_a)
    run(24, tech_a)

    curves.judge(it, "rejected", reason="bump in the baseline", by=tech_a)

    assert active_value(the_test()) is None
    assert the_test().determinations.get(place=1).state == State.BEGUN
    assert the_test().state == Test.State.DUE


def test_saying_otherwise_needs_a_reason(induction, tech_a):
    it = run(23, tech_a)

    with pytest.raises(NeedsReason, match="Say why it changes"):
        curves.judge(it, "rejected", by=tech_a)

    assert Condition.objects.filter(key="curve").count() == 1


def test_the_same_said_again_changes_nothing(induction, tech_a):
    it = run(23, tech_a)
    before = Entry.objects.count()

    curves.judge(it, by=tech_a)

    assert Entry.objects.count() == before


def test_another_curve_is_to_be_seen_again(induction, tech_a):
    run(23, tech_a)
    run(24, tech_a)

    import_trace(
        test=the_test(),
        name="other.csv",
        content=curves.run_of(40),
        reason="wrong file",
        by=tech_a,
    )

    it = the_test().determinations.get(place=2)
    assert it.state == State.BEGUN
    assert "Look at the curve with both lines, then accept or reject it." in it.asks
    assert active_value(the_test()) is None


@pytest.mark.parametrize("key", ["baseline_from", "baseline_to", "admitted"])
def test_other_lines_are_to_be_seen_again(induction, tech_a, key):
    it = run(23, tech_a)

    record_condition(
        test=the_test(),
        key=key,
        text="6.5" if key != "baseline_to" else "16",
        reason="typing slip",
        determination=it,
        by=tech_a,
    )

    assert "Look at the curve with both lines, then accept or reject it." in (
        the_test().determinations.get().asks
    )


def test_what_does_not_move_the_lines_leaves_the_acceptance(induction, tech_a):
    it = run(23, tech_a)

    record_condition(
        test=the_test(),
        key="temperature",
        text="210",
        reason="typing slip",
        determination=it,
        by=tech_a,
    )

    assert the_test().determinations.get().asks == []


def test_said_of_the_new_curve_it_counts_again_and_says_why(induction, tech_a):
    it = run(23, tech_a)
    import_trace(
        test=the_test(),
        name="other.csv",
        content=curves.run_of(25),
        reason="wrong file",
        determination=it,
        by=tech_a,
    )

    curves.judge(the_test().determinations.get(), by=tech_a)

    assert the_test().determinations.get().state == State.ACCEPTED
    said = Condition.objects.filter(key="curve").last()
    assert said.reason == "given for another curve or other lines"


def test_the_first_lines_again_are_the_ones_that_were_seen(induction, tech_a):
    it = run(23, tech_a)
    for text in ("14", "15"):
        record_condition(
            test=the_test(),
            key="baseline_to",
            text=text,
            reason="tried another",
            determination=it,
            by=tech_a,
        )

    assert the_test().determinations.get().state == State.ACCEPTED


# ---- What is refused of it


def test_a_picture_that_was_not_seen_is_not_judged(induction, tech_a):
    it = run(23, tech_a, answer="rejected")
    opened = picture_of(it.test.characteristic, held(it))
    record_condition(
        test=the_test(),
        key="baseline_to",
        text="14",
        reason="into the rise",
        determination=it,
        by=tech_a,
    )

    with pytest.raises(ChangedSince, match="have changed since you saw them"):
        judge_curve(determination=it, answer="accepted", seen=opened, by=tech_a)


def test_nothing_is_accepted_before_its_lines_are_drawn(induction, tech_a):
    it = import_trace(
        test=the_test(), name="a.csv", content=curves.run_of(23), by=tech_a
    )

    with pytest.raises(WrongMove, match="No lines are drawn yet: give the times"):
        curves.judge(it, by=tech_a)


def test_without_a_curve_there_is_nothing_to_say(induction, tech_a):
    it = record_condition(test=the_test(), key="admitted", text="5", by=tech_a)

    with pytest.raises(WrongMove, match="choose its file first"):
        curves.judge(it, "rejected", by=tech_a)


def test_a_curve_is_accepted_or_rejected_and_nothing_else(induction, tech_a):
    with pytest.raises(BadInput, match="accepted or rejected"):
        run(23, tech_a, answer="nearly")


def test_it_is_not_typed_among_the_conditions(induction, tech_a):
    with pytest.raises(WrongMove, match="said beneath the curve"):
        record_condition(test=the_test(), key="curve", text="accepted", by=tech_a)


def test_an_auditor_says_nothing_of_a_curve(induction, tech_a, aud_1):
    it = run(23, tech_a)

    with pytest.raises(NotAllowed):
        curves.judge(it, "rejected", reason="looks odd", by=aud_1)


def test_a_curve_of_a_set_put_aside_stays_as_it_was_judged(induction, tech_a):
    it = run(23, tech_a, answer="rejected")
    set_aside(determination=it, reason="spike", by=tech_a)

    with pytest.raises(WrongMove, match="Set 1 is set aside"):
        curves.judge(
            the_test().determinations.get(place=1), reason="so be it", by=tech_a
        )


def test_a_test_without_a_curve_has_none_to_judge(works, tech_a):
    it = record_condition(
        test=plant.the_test("worked-penetration"),
        key="temperature",
        text="25.1",
        by=tech_a,
    )

    with pytest.raises(WrongMove, match="is not worked out from a curve"):
        judge_curve(determination=it, answer="accepted", seen="", by=tech_a)


def test_the_record_holds_after_all_of_it(induction, tech_a):
    it = run(23, tech_a)
    curves.judge(it, "rejected", reason="bump in the baseline", by=tech_a)

    assert Entry.objects.filter(verb="curve_judged").count() == 2
    assert verify.verify().holds
