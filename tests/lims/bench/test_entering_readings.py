"""A reading is saved as typed, one entry each; what is no number is told and kept; a change needs a reason."""

import pytest

from lims.bench.actions import entering
from lims.bench.models import Determination, Reading, Test
from lims.bench.reporting import active_value
from lims.bench.rules import NeedsReason, TypeAgain
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import plant

WORKED = "worked-penetration"


def read(by, slot, text, code=WORKED, **more):
    return entering.record_reading(
        test=plant.the_test(code), slot=slot, text=text, by=by, **more
    )


def note(by, key, text, code=WORKED, **more):
    return entering.record_condition(
        test=plant.the_test(code), key=key, text=text, by=by, **more
    )


def ready_to_read(by, code=WORKED):
    note(by, "penetrometer", "PEN-01", code)
    note(by, "temperature", "25.1", code)
    if code == WORKED:
        note(by, "strokes_end", "08:52:10", code)


def test_each_reading_is_one_entry(tech_a):
    before = Entry.objects.count()

    read(tech_a, "cone_1", "279")

    assert Entry.objects.count() == before + 1
    assert Entry.objects.order_by("seq").last().verb == "reading_recorded"


def test_a_reading_is_kept_as_typed_beside_its_exact_value(tech_a):
    read(tech_a, "cone_1", "279,50")

    reading = Reading.objects.get()
    assert (reading.text, reading.value) == ("279,50", "279.50")


def test_three_readings_and_their_conditions_report_the_mean(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "279"), ("cone_2", "281"), ("cone_3", "280")):
        read(tech_a, slot, text)

    test = plant.the_test(WORKED)
    assert test.state == Test.State.REPORTED
    assert active_value(test).reported == "280"


def test_the_same_text_saved_again_writes_nothing(tech_a):
    read(tech_a, "cone_1", "279")
    before = Entry.objects.count()

    read(tech_a, "cone_1", "279")

    assert Entry.objects.count() == before
    assert Reading.objects.count() == 1


@pytest.mark.parametrize(
    "text", ["28l", "1_000", "NaN", "1e400", "٢٨٠", "2 81", "9" * 41]
)
def test_text_that_is_no_number_is_told_and_kept_in_the_record(tech_a, text):
    with pytest.raises(BadInput):
        read(tech_a, "cone_1", text)

    last = Entry.objects.order_by("seq").last()
    assert last.verb == "text_kept"
    assert text[:40] in last.note
    assert not Reading.objects.exists()


def test_a_changed_reading_needs_a_reason(tech_a):
    read(tech_a, "cone_1", "297")

    with pytest.raises(NeedsReason):
        read(tech_a, "cone_1", "279")


def test_a_changed_reading_stands_beside_the_old_one(tech_a):
    read(tech_a, "cone_1", "297")

    read(tech_a, "cone_1", "279", reason="figures exchanged")

    old, new = Reading.objects.order_by("pk")
    assert (old.text, new.text, new.replaces) == ("297", "279", old)
    assert Entry.objects.order_by("seq").last().reason == "figures exchanged"


def test_an_implausible_number_is_typed_again_and_then_stored(tech_a):
    with pytest.raises(TypeAgain):
        read(tech_a, "cone_1", "2800")

    read(tech_a, "cone_1", "2800", again="2800")

    assert Reading.objects.get().value == "2800"


def test_a_set_over_the_house_spread_is_not_accepted(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "276"), ("cone_2", "284"), ("cone_3", "279")):
        read(tech_a, slot, text)

    determination = Determination.objects.get(test=plant.the_test(WORKED))
    assert determination.state == Determination.State.BEGUN
    assert determination.reported == "280"
    assert "fresh fill" in determination.asks[0]
    assert active_value(plant.the_test(WORKED)) is None


def test_a_set_aside_stays_and_a_fresh_one_is_begun(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "276"), ("cone_2", "284"), ("cone_3", "279")):
        read(tech_a, slot, text)
    wide = Determination.objects.get(test=plant.the_test(WORKED))

    fresh = entering.set_aside(
        determination=wide, reason="void seen at the cup wall", by=tech_a
    )

    wide.refresh_from_db()
    assert (wide.state, wide.readings.count()) == (Determination.State.SET_ASIDE, 3)
    assert (fresh.place, fresh.state) == (2, Determination.State.BEGUN)


def test_setting_aside_needs_what_was_seen(tech_a):
    read(tech_a, "cone_1", "276")
    begun = Determination.objects.get(test=plant.the_test(WORKED))

    with pytest.raises(BadInput):
        entering.set_aside(determination=begun, reason=" ", by=tech_a)


def test_an_accepted_determination_is_not_set_aside(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "279"), ("cone_2", "281"), ("cone_3", "280")):
        read(tech_a, slot, text)
    accepted = Determination.objects.get(test=plant.the_test(WORKED))

    with pytest.raises(WrongMove):
        entering.set_aside(determination=accepted, reason="I want another", by=tech_a)


def test_a_correction_that_widens_the_set_withdraws_the_value(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "279"), ("cone_2", "281"), ("cone_3", "280")):
        read(tech_a, slot, text)

    read(tech_a, "cone_3", "288", reason="read from the wrong line")

    test = plant.the_test(WORKED)
    assert active_value(test) is None
    assert test.state == Test.State.DUE
    assert test.reported_values.count() == 2


def test_a_correction_that_leaves_the_value_reports_nothing_again(tech_a):
    ready_to_read(tech_a)
    for slot, text in (("cone_1", "279"), ("cone_2", "281"), ("cone_3", "280")):
        read(tech_a, slot, text)

    note(tech_a, "temperature", "25.2", reason="read again")

    test = plant.the_test(WORKED)
    assert active_value(test).reported == "280"
    assert test.reported_values.count() == 1


def test_too_warm_is_stored_and_barred(tech_a):
    ready_to_read(tech_a)
    note(tech_a, "temperature", "25.6", reason="read again")
    for slot, text in (("cone_1", "279"), ("cone_2", "281"), ("cone_3", "280")):
        read(tech_a, slot, text)

    determination = Determination.objects.get(test=plant.the_test(WORKED))
    assert determination.value == "280"
    assert "25.6 °C" in determination.bars[0]["sentence"]
    assert active_value(plant.the_test(WORKED)) is None


def test_an_overdue_instrument_bars_the_verdict(tech_a):
    code = "dropping-point-block"
    note(tech_a, "apparatus", "TH-14", code)
    for slot, text in (
        ("observed_1", "186"),
        ("block_1", "232"),
        ("observed_2", "188"),
        ("block_2", "232"),
    ):
        read(tech_a, slot, text, code)

    determination = Determination.objects.get(test=plant.the_test(code))
    assert determination.reported == "202"
    assert determination.bars[0]["sentence"] == "TH-14 was overdue when it was used."


def test_an_instrument_nobody_knows_is_told(tech_a):
    with pytest.raises(BadInput, match="No instrument PEN-99"):
        note(tech_a, "penetrometer", "PEN-99")


@pytest.mark.parametrize("text", ["25:10:00", "soon", "2026-02-31 10:00", "8.52"])
def test_a_time_that_is_none_is_told(tech_a, text):
    with pytest.raises(BadInput):
        note(tech_a, "strokes_end", text)


def test_an_auditor_enters_nothing(aud_1):
    with pytest.raises(NotAllowed):
        read(aud_1, "cone_1", "279")


def test_nothing_is_typed_for_a_derived_value(tech_a):
    with pytest.raises(WrongMove):
        read(tech_a, "cone_1", "22", "penetration-change-100000")


def test_an_unknown_place_is_told(tech_a):
    with pytest.raises(BadInput):
        read(tech_a, "cone_9", "279")
