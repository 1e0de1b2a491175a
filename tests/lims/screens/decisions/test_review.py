"""The review of a fill lot as each person reads it."""

from django.urls import reverse

from lims.batches.models import FillLot
from lims.bench.actions import entering
from lims.decisions import verdicts
from lims.decisions.models import Decision
from lims.instruments import actions as instruments
from lims.instruments.queries import instrument
from lims.people.queries import person
from tests.factories import plant


def test_the_review_opens_with_the_answer_and_counts_truly(lot, review):
    text = review(lot)

    assert (
        "Every requirement of LX2 revision 5 is met. "
        "Oxidation rests on a periodic test." in text
    )
    assert (
        "because it meets LX2 revision 5: seven requirements, six tested on this "
        "lot, one periodic." in text
    )


def test_results_stand_under_the_evidence_that_they_rest_on(lot, review):
    text = review(lot)

    on_lot, periodic = text.index("Tested on this lot"), text.index("Periodic 1")
    assert on_lot < text.index("Dropping point") < periodic
    assert periodic < text.index("batch Q1-26-0310, tested 16 January 2026")
    assert "reported only" in text
    assert "These are not results." in text


def test_a_customers_tighter_limit_is_told_beside_the_product_s_own(lot, review):
    text = review(lot)

    assert "OL for LX2 revision C" in text
    assert "+22" in text
    assert "−20 to +20" in text


def test_a_set_that_was_set_aside_stays_readable_with_its_reason(opened, review):
    tests = {key: value for key, value in plant.READY.items() if key != "worked"}
    plant.play(
        plant.periodic_pass(), plant.story(tests=tests), until="2026-03-07 08:00"
    )
    technician, test = person("tech-a"), plant.the_test("worked-penetration")
    for slot, text in (("cone_1", "276"), ("cone_2", "284"), ("cone_3", "279")):
        spread_out = entering.record_reading(
            test=test, slot=slot, text=text, by=technician
        )
    entering.set_aside(
        determination=spread_out, reason="void seen at cup wall", by=technician
    )

    text = review(plant.lot())

    assert "2 sets, 1 set aside" in text
    assert "void seen at cup wall" in text
    assert "276 284 279" in text


def test_a_changed_reading_is_told_with_old_new_reason_and_person(lot, review):
    entering.record_reading(
        test=plant.the_test("oil-separation"),
        slot=_first_slot("oil-separation"),
        text="10.20",
        reason="transposed digit",
        by=person("tech-b"),
    )

    text = review(lot)

    assert "10.02 g → 10.20 g transposed digit" in text
    assert person("tech-b").name in text


def test_a_changed_cone_reading_has_its_unit_as_a_factor(lot, review):
    entering.record_reading(
        test=plant.the_test("worked-penetration"),
        slot="cone_1",
        text="278",
        reason="read from the wrong line",
        by=person("tech-b"),
    )

    assert "279 × 0.1 mm → 278 × 0.1 mm read from the wrong line" in review(lot)


def test_an_instrument_that_could_not_count_and_was_exchanged_asks_for_a_look(
    lot, review
):
    instruments.take_out_of_service(
        instrument=instrument("PEN-02"), reason="needle bent", by=person("mgr-1")
    )
    _note_penetrometer("PEN-02")
    before = review(lot)
    _note_penetrometer("PEN-01")

    text = review(lot)

    assert "PEN-01 → PEN-02" in before
    assert "look here" not in before
    assert (
        "look here first noted with an instrument out of service PEN-02 → PEN-01"
        in text
    )
    assert text.count("look here") == 1


def _note_penetrometer(number):
    entering.record_condition(
        test=plant.the_test("worked-penetration"),
        key="penetrometer",
        text=number,
        reason="the wrong one was written down",
        by=person("tech-b"),
    )


def test_the_whole_record_of_a_lot_with_its_certificates_is_one_step_away(
    lot, signed_in
):
    page = signed_in("aud-1").get(reverse("decisions:lot", args=[lot.number]))

    address = reverse("record:about", args=["fill lot", lot.number])
    assert f'<a href="{address}">Whole record</a>' in page.content.decode()


def _first_slot(code):
    reading = plant.the_test(code).determinations.get().readings.first()
    return reading.slot


def test_instruments_are_told_with_their_state_then_and_their_last_check(lot, review):
    text = review(lot)

    assert "PEN-01 penetrometer in service 1 December 2025" in text


def test_what_is_not_tested_is_told_with_why(opened, review):
    tests = {key: plant.READY[key] for key in ("appearance", "unworked", "worked")}
    plant.play(plant.periodic_pass(), plant.story(tests=tests))

    text = review(plant.lot())

    assert "Not tested: change of penetration, dropping point" in text
    assert "Without a result" in text
    assert "no reading yet" in text
    assert "Its tests come first." in text


def test_an_auditor_reads_the_review_and_who_can_sign_but_no_panel(
    lot, review, signed_in, sign
):
    text = review(lot, "aud-1")
    answered = sign(lot, "aud-1")

    assert f"Deciding on fill lots is for {person('mgr-1').name}" in text
    assert person("qm-1").name in text
    assert "Sign and release" not in text
    assert answered.status_code == 403
    assert not Decision.objects.exclude(fill_lot__number="Q1-26-0310-A").exists()


def test_a_check_that_raises_is_not_evaluated_and_blocks(
    lot, review, sign, monkeypatch
):
    def fail(*_, **__):
        raise ArithmeticError("out of order")

    monkeypatch.setattr(verdicts.rules, "judge_by", fail)

    text, answered = review(lot), sign(lot)

    assert "not evaluated" in text
    assert "The check itself failed." in text
    assert answered.status_code == 409
    assert FillLot.objects.get(pk=lot.pk).state == FillLot.State.AWAITING_DECISION


def test_a_released_lot_shows_what_was_signed(lot, review, sign):
    sign(lot, remark="all plain")

    text = review(lot, "desk-1")

    assert "Released. Every requirement of LX2 revision 5 is met." in text
    assert (
        f"{person('mgr-1').name} laboratory manager 9 March 2026, 09:00:00 CET" in text
    )
    assert "reviewed and authorised" in text
    assert "all plain" in text


def test_the_verdicts_of_a_released_lot_stay_as_signed_when_a_period_ends(
    lot, review, sign
):
    sign(lot)
    plant.play(until="2026-11-02 09:00")

    text = review(lot)

    assert "Released. Every requirement of LX2 revision 5 is met." in text


def test_an_unknown_fill_lot_is_not_found(opened, signed_in):
    address = reverse("decisions:lot", args=["Q1-26-9999-A"])

    assert signed_in("mgr-1").get(address).status_code == 404


def test_a_review_takes_a_constant_number_of_queries(
    lot, signed_in, django_assert_max_num_queries
):
    client = signed_in("mgr-1")

    with django_assert_max_num_queries(49):
        client.get(reverse("decisions:lot", args=[lot.number]))
