"""A decision is a signature bound to what was seen; who tested does not release; refusals name what to do."""

import pytest
from django.db import Error

from lims.batches.models import FillLot
from lims.bench.actions import entering
from lims.bench.models import Test
from lims.decisions import actions, rules
from lims.decisions.models import Decision, FrozenVerdict
from lims.decisions.review import review_of
from lims.people.actions import change_site, give_role
from lims.people.queries import person as person_of
from lims.people.queries import the_site
from lims.record.gate import entry
from lims.record.models import Entry, Signature
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories import plant
from tests.factories.people import PASSWORD

State = FillLot.State


def test_a_release_is_signed_and_freezes_the_verdicts(works):
    decision = plant.release(plant.lot())

    assert plant.lot().state == State.RELEASED
    assert decision.signature.meaning == "reviewed and authorised"
    assert decision.signature.function == "laboratory manager"
    own = FrozenVerdict.objects.filter(
        decision=decision, requirement__revision__specification__customer=None
    )
    assert {v.verdict for v in own} == {"met", ""}
    assert plant.the_test("worked-penetration").state == Test.State.AUTHORISED


def test_a_release_is_one_entry(works):
    before = Entry.objects.count()

    plant.release(plant.lot())

    assert Entry.objects.count() == before + 1


def test_a_wrong_password_signs_nothing(works):
    with pytest.raises(BadInput) as told:
        actions.release(
            fill_lot=plant.lot(),
            seen=review_of(plant.lot()).seen,
            password="not this one at all",
            by=person_of("mgr-1"),
        )

    assert told.value.field == "password"
    assert plant.lot().state == State.AWAITING_DECISION
    assert not Signature.objects.filter(about_key="Q1-26-0417-A").exists()


def test_a_change_in_between_refuses_the_signature(works):
    seen = review_of(plant.lot()).seen
    entering.record_reading(
        test=plant.the_test("worked-penetration"),
        slot="cone_1",
        text="278",
        reason="read from the wrong line",
        by=person_of("tech-b"),
    )

    with pytest.raises(ChangedSince):
        actions.release(
            fill_lot=plant.lot(), seen=seen, password=PASSWORD, by=person_of("mgr-1")
        )

    assert not Decision.objects.filter(fill_lot=plant.lot()).exists()


def test_a_released_lot_is_not_released_again(works):
    plant.release(plant.lot())

    with pytest.raises(WrongMove, match="is released"):
        plant.release(plant.lot())


def test_a_technician_releases_nothing(works):
    with pytest.raises(NotAllowed):
        plant.release(plant.lot(), by="tech-b")


def test_a_lot_on_test_is_not_released(works):
    plant.play(plant.story("0418", retain="R-12-05", tests={}))

    with pytest.raises(WrongMove, match="on test"):
        plant.release(plant.lot("0418"))


def test_a_lot_without_a_retain_is_not_released(works):
    plant.play(plant.story("0418", retain=None))

    with pytest.raises(WrongMove, match="No retain"):
        plant.release(plant.lot("0418"))


def test_a_lot_with_a_line_not_met_is_not_released(works):
    bad = plant.READY | {"prolonged": "W-2: 315 316 314"}
    plant.play(plant.story("0418", retain="R-12-05", tests=bad))

    with pytest.raises(WrongMove, match=r"Change of penetration.* is not met") as told:
        plant.release(plant.lot("0418"))

    assert "Put the lot on hold; what happens to it is then decided" in str(told.value)
    assert "complete its tests" not in str(told.value).lower()


def test_a_lot_whose_tests_are_not_complete_is_told_to_complete_them(works):
    some = {key: plant.READY[key] for key in ("appearance", "unworked", "worked")}
    plant.play(plant.story("0418", retain="R-12-05", tests=some))

    with pytest.raises(WrongMove, match="Complete its tests, or put the lot on hold"):
        rules.check_every_line_is_met(review_of(plant.lot("0418")))


def let_the_tester_manage():
    give_role(
        person=person_of("tech-a"), role="laboratory_manager", by=person_of("adm-1")
    )


def test_who_recorded_does_not_release(works):
    let_the_tester_manage()

    with pytest.raises(NotAllowed, match="another person authorises"):
        plant.release(plant.lot(), by="tech-a")


def test_the_database_too_refuses_whoever_recorded(works):
    decision = plant.release(plant.lot())
    tester = person_of("tech-a")

    with (
        pytest.raises(Error, match="recorded a determination"),
        entry(by=tester, verb="lot_released", about=plant.lot()),
    ):
        Decision(
            fill_lot=plant.lot(),
            disposition="release",
            signature=_another_signature(decision.signature),
            decided_at=decision.decided_at,
            decided_by=tester,
        ).save()


def _another_signature(signature):
    signature.pk = None
    signature._state.adding = True
    signature.save()
    return signature


def test_a_deputy_alone_decides_where_the_site_allows_it_and_says_why(works):
    let_the_tester_manage()
    change_site(
        site=the_site(),
        version=the_site().version,
        reason="one manager in the summer weeks",
        allow_deputy_alone=True,
        by=person_of("adm-1"),
    )

    with pytest.raises(BadInput) as told:
        plant.release(plant.lot(), by="tech-a")
    assert told.value.field == "alone_reason"

    decision = plant.release(
        plant.lot(), by="tech-a", alone_reason="night shift, nobody else on duty"
    )

    assert decision.signature.meaning.endswith("decided alone")
    assert "night shift" in Entry.objects.order_by("seq").last().reason


def test_a_hold_needs_a_remark(works):
    with pytest.raises(BadInput) as told:
        plant.hold(plant.lot(), remark=" ")

    assert told.value.field == "remark"


def test_a_released_lot_is_put_on_hold_and_its_tests_are_open_again(works):
    plant.release(plant.lot())

    plant.hold(plant.lot())

    assert plant.lot().state == State.ON_HOLD
    assert plant.the_test("worked-penetration").state == Test.State.REPORTED


def test_the_end_of_a_hold_leads_back_to_the_decision(works):
    plant.hold(plant.lot())

    actions.end_hold(
        fill_lot=plant.lot(),
        seen=review_of(plant.lot()).seen,
        password=PASSWORD,
        remark="new pack samples found in order",
        by=person_of("qm-1"),
    )

    assert plant.lot().state == State.AWAITING_DECISION


def test_a_lot_on_hold_is_not_held_again(works):
    plant.hold(plant.lot())

    with pytest.raises(WrongMove, match="on hold"):
        plant.hold(plant.lot())


def test_readings_of_a_released_lot_stand(works):
    plant.release(plant.lot())

    with pytest.raises(WrongMove, match="on hold first"):
        entering.record_reading(
            test=plant.the_test("worked-penetration"),
            slot="cone_1",
            text="270",
            reason="wrong line",
            by=person_of("tech-a"),
        )


def test_a_correction_during_a_hold_changes_what_is_seen(works):
    plant.hold(plant.lot())
    seen = review_of(plant.lot()).seen

    entering.record_reading(
        test=plant.the_test("worked-penetration"),
        slot="cone_1",
        text="278",
        reason="read from the wrong line",
        by=person_of("tech-a"),
    )

    review = review_of(plant.lot())
    assert review.seen != seen
    assert [(c.old.text, c.new.text) for c in review.changes] == [("279", "278")]


def test_the_review_tells_the_instruments_as_they_were(works):
    uses = {
        (use.instrument.number, use.instrument_state)
        for use in review_of(plant.lot()).instruments
    }

    assert uses == {(number, "in service") for number in ("PEN-01", "W-2", "DP-01")}


def test_an_empty_specification_releases_nothing(works):
    review = review_of(plant.lot())

    with pytest.raises(WrongMove, match="no requirement"):
        rules.check_every_line_is_met(
            type(review)(review.lot, (), (), (), None, (), "{}")
        )
