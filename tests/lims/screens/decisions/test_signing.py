"""Signing under a review: who may, when not, and what is kept after a refusal."""

import pytest
from django.db import DatabaseError
from django.urls import reverse

from lims.batches import actions as batches
from lims.batches.models import FillLot
from lims.bench.actions import entering
from lims.decisions import rules
from lims.decisions.models import Decision
from lims.decisions.review import review_of
from lims.people import actions as people
from lims.people.queries import person, the_site
from lims.record.queries import tail
from lims.record.refusals import NotAllowed
from tests.factories import plant
from tests.lims.screens.decisions.conftest import text_of

State = FillLot.State


def state_of(lot):
    return FillLot.objects.get(pk=lot.pk).state


@pytest.fixture
def tested_by_the_manager(opened):
    """The manager entered the readings of this lot in person."""
    plant.play(plant.periodic_pass(), plant.story(tester="mgr-1"))
    return plant.lot()


def allow_alone():
    site = the_site()
    people.change_site(
        site=site,
        version=site.version,
        reason="one manager in August",
        allow_deputy_alone=True,
        by=person("adm-1"),
    )


def test_a_release_is_signed_and_leads_back_to_the_review(lot, sign, signed_in):
    answered = sign(lot)

    assert answered.status_code == 303
    assert answered["Location"] == reverse("decisions:lot", args=[lot.number])
    assert state_of(lot) == State.RELEASED
    assert Decision.objects.get(fill_lot=lot).signature.printed_name == (
        person("mgr-1").name
    )


def test_the_signature_needs_post(lot, signed_in):
    answered = signed_in("mgr-1").get(reverse("decisions:sign", args=[lot.number]))

    assert answered.status_code == 405


def test_who_recorded_a_determination_finds_release_closed(
    tested_by_the_manager, review, sign
):
    lot = tested_by_the_manager

    text, answered = review(lot), sign(lot)

    assert "You recorded readings of Q1-26-0417 A, so another person" in text
    assert answered.status_code == 403
    assert state_of(lot) == State.AWAITING_DECISION


def test_who_recorded_a_determination_is_refused_by_the_action(tested_by_the_manager):
    with pytest.raises(NotAllowed, match="another person authorises it"):
        plant.release(tested_by_the_manager)


def test_who_recorded_a_determination_is_refused_by_the_database(
    tested_by_the_manager, monkeypatch
):
    monkeypatch.setattr(rules, "check_is_somebody_else", lambda *_, **__: None)

    with pytest.raises(DatabaseError, match="does not release it"):
        plant.release(tested_by_the_manager)

    assert state_of(tested_by_the_manager) == State.AWAITING_DECISION


def test_a_deputy_alone_gives_a_reason_where_the_site_allows_it(
    tested_by_the_manager, review, sign
):
    lot = tested_by_the_manager
    allow_alone()

    asked = sign(lot)
    answered = sign(lot, alone_reason="nobody else on duty today")

    assert asked.status_code == 422
    assert "Why you decide alone" in text_of(asked)
    assert answered.status_code == 303
    assert "decided alone: nobody else on duty today" in review(lot)


def test_a_change_after_opening_refuses_and_tells_what_was_done(lot, sign, review):
    seen = review_of(lot).seen
    stood = tail().seq
    slot = plant.the_test("oil-separation").determinations.get().readings.first().slot
    entering.record_reading(
        test=plant.the_test("oil-separation"),
        slot=slot,
        text="10.20",
        reason="transposed digit",
        by=person("tech-b"),
    )

    answered = sign(lot, seen=seen, stood=stood, remark="as usual")

    text = text_of(answered)
    assert answered.status_code == 409
    assert "changed after you opened it" in text
    assert "Reading corrected" in text
    assert "transposed digit" in text
    assert 'value="as usual"' in answered.content.decode()
    assert review_of(lot).seen in answered.content.decode()
    assert state_of(lot) == State.AWAITING_DECISION


def test_a_wrong_password_signs_nothing_and_keeps_the_remark(lot, sign):
    answered = sign(lot, password="not that one", remark="seal looked at twice")

    page = answered.content.decode()
    assert answered.status_code == 422
    assert "That is not your password" in page
    assert 'value="seal looked at twice"' in page
    assert "not that one" not in page
    assert state_of(lot) == State.AWAITING_DECISION


def test_a_missing_password_is_told_beside_its_box(lot, sign):
    answered = sign(lot, password="")

    assert answered.status_code == 422
    assert "Type your password to sign." in text_of(answered)


def test_no_release_without_a_retain_until_an_exception_is_allowed(
    opened, sign, review
):
    plant.play(plant.periodic_pass(), plant.story(retain=""))
    lot = plant.lot()

    text, refused = review(lot), sign(lot)
    batches.allow_without_retain(
        fill_lot=lot, reason="pail broke, nothing left", by=person("qm-1")
    )
    answered = sign(lot)

    assert "No retain of Q1-26-0417 A is kept." in text
    assert refused.status_code == 409
    assert answered.status_code == 303
    assert "none, allowed: pail broke, nothing left" in review(lot)


def test_what_is_not_met_cannot_be_released_but_put_on_hold(opened, sign, review):
    tests = plant.READY | {"prolonged": "W-2: 313 315 314"}
    plant.play(plant.periodic_pass(), plant.story(tests=tests))
    lot = plant.lot()

    text, refused = review(lot), sign(lot)
    held = sign(lot, disposition="hold", remark="too soft after working")

    assert "Change of penetration is +34; the requirement is −30 to +30" in text
    assert "4 above its upper limit" in text
    assert refused.status_code == 409
    assert "cannot be released" in text_of(refused)
    assert held.status_code == 303
    assert state_of(lot) == State.ON_HOLD


def test_a_hold_needs_a_remark(lot, sign):
    answered = sign(lot, disposition="hold")

    assert answered.status_code == 422
    assert "Say why, in a remark." in text_of(answered)
    assert state_of(lot) == State.AWAITING_DECISION


def test_a_hold_is_ended_by_a_signature_and_only_that_is_offered(lot, sign, review):
    sign(lot, disposition="hold", remark="seal of a drum open")
    text = review(lot)

    answered = sign(lot, disposition="end of hold", remark="seals looked at")

    assert "End the hold" in text
    assert "Sign and release" not in text
    assert answered.status_code == 303
    assert state_of(lot) == State.AWAITING_DECISION


def test_a_released_lot_can_only_be_put_on_hold(lot, sign, review):
    sign(lot)

    text = review(lot)

    assert "Sign and put on hold" in text
    assert "Sign and release" not in text


def test_a_disposition_that_is_not_offered_is_no_choice(lot, sign):
    answered = sign(lot, disposition="end of hold", remark="just so")

    assert answered.status_code == 422
    assert not lot.decisions.exists()


def test_the_same_form_sent_twice_signs_once(lot, sign):
    seen = review_of(lot).seen
    sign(lot, seen=seen)

    again = sign(lot, seen=seen)

    assert again.status_code in {409, 422}
    assert lot.decisions.count() == 1


def test_password_boxes_take_what_a_password_keeper_fills_in(lot, signed_in):
    page = signed_in("mgr-1").get(reverse("decisions:lot", args=[lot.number]))

    assert 'autocomplete="current-password"' in page.content.decode()
