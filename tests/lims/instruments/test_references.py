"""Reference materials and their readings: what is refused, what takes an instrument out, and what brings it back."""

import datetime as dt

import pytest

from lims.instruments import actions, reference_queries
from lims.instruments.actions_on_references import (
    add_reference_material,
    read_reference,
)
from lims.instruments.failures import failure_of, failures_of
from lims.instruments.models import Instrument, ReferenceMaterial, ReferenceReading
from lims.people.days import today
from lims.record import clock, verify
from lims.record.models import Entry
from lims.record.refusals import BadInput, ChangedSince, NotAllowed, WrongMove
from tests.factories.instruments import checked, in_service
from tests.factories.methods import characteristic

GOOD, BAD = ("287", "288", "287"), ("296", "297", "295")


@pytest.fixture
def worked(plant):
    return characteristic("worked-penetration")


@pytest.fixture
def grease(worked, manager):
    return material(worked, manager)


def material(worked, by, **change):
    given = {
        "name": "reference grease",
        "lot": "RG-7",
        "kind": "penetrometer",
        "characteristic": worked,
        "assigned": "286",
        "basis": "mean of 12 laboratories",
        "deviation": "2.53",
        "deviation_basis": "chart of 2025, 52 readings",
        "expires_on": dt.date(2026, 12, 31),
    }
    return add_reference_material(**(given | change), by=by)


def later(days=1):
    clock.set_to(clock.now() + dt.timedelta(days=days))


def read(row, grease, by, texts=GOOD, **more):
    row.refresh_from_db()
    return read_reference(
        instrument=row, material=grease, readings=texts, by=by, **more
    )


def test_a_good_reading_is_kept_with_what_it_was_judged_by(grease, manager, technician):
    row = in_service(by=manager)

    found = read(row, grease, technician)

    assert (found.bias[:6], found.finding) == ("1.3333", "within limits")
    assert (found.deviation, found.deviation_basis) == (
        "2.53",
        "chart of 2025, 52 readings",
    )
    assert found.instrument_state == "in service"
    assert Entry.objects.first().note == (
        "reference grease 287.3, assigned 286, bias +1.3 within ±7.6"
    )


def test_beyond_the_action_limit_it_is_out_of_service_in_the_same_entry(
    grease, manager, technician
):
    row = in_service(by=manager)
    before = Entry.objects.count()

    read(row, grease, technician, BAD)

    row.refresh_from_db()
    assert Entry.objects.count() == before + 1
    assert row.state == Instrument.State.OUT_OF_SERVICE
    assert row.state_reason == (
        "reference grease 296.0, assigned 286, bias +10.0 beyond ±7.6"
    )
    assert verify.verify().holds


def test_beyond_the_warning_limit_it_stays_in_service(grease, manager, technician):
    row = in_service(by=manager)

    found = read(row, grease, technician, ("292", "292", "292"))

    row.refresh_from_db()
    assert found.finding == "beyond the warning limit"
    assert row.state == Instrument.State.IN_SERVICE


def test_it_comes_back_only_after_a_check_and_a_good_reading(
    grease, manager, technician
):
    row = in_service(by=manager)
    later()
    read(row, grease, technician, BAD)
    row.refresh_from_db()
    later()
    with pytest.raises(WrongMove, match="only after a check since"):
        put_back(row, manager)

    checked(row, by=manager)
    row.refresh_from_db()
    with pytest.raises(WrongMove, match="good reading of a reference material since"):
        put_back(row, manager)

    read(row, grease, technician, ("286", "287", "286"))
    row.refresh_from_db()
    put_back(row, manager)
    assert row.state == Instrument.State.IN_SERVICE


def test_a_reading_from_before_it_went_out_does_not_bring_it_back(
    grease, manager, technician
):
    row = in_service(by=manager)
    read(row, grease, technician)
    later()
    row.refresh_from_db()
    actions.take_out_of_service(instrument=row, reason="Dropped.", by=manager)
    later()
    checked(row, by=manager)
    row.refresh_from_db()

    with pytest.raises(WrongMove, match="read reference grease, lot RG-7 on it"):
        put_back(row, manager)


def put_back(row, by):
    return actions.put_back(instrument=row, reason="Shaft changed back.", by=by)


@pytest.mark.parametrize(
    ("texts", "refusal"),
    [
        (("287", "288"), ("reading_1", "has 3 readings")),
        (("287", "", "287"), ("reading_2", "Write a number")),
        (("287", "288", "28x"), ("reading_3", "number")),
        ((">287", "288", "287"), ("reading_1", "without < or >")),
        (("-287", "288", "287"), ("reading_1", "not below zero")),
        (("2" * 30, "288", "287"), ("reading_1", "at most 20")),
    ],
)
def test_a_set_that_is_not_whole_is_refused(
    grease, manager, technician, texts, refusal
):
    row = in_service(by=manager)
    field, sentence = refusal

    with pytest.raises(BadInput, match=sentence) as refused:
        read(row, grease, technician, texts)

    assert refused.value.field == field
    assert not ReferenceReading.objects.exists()


def test_a_retired_instrument_is_not_read(grease, manager, technician):
    row = in_service(by=manager)
    actions.retire(instrument=row, reason="Worn out.", by=manager)

    with pytest.raises(WrongMove, match="is retired"):
        read(row, grease, technician)


def test_a_material_for_another_kind_and_an_expired_one_are_refused(
    grease, manager, technician
):
    oven = in_service(by=manager, number="OV-1", kind="oven")
    with pytest.raises(WrongMove, match="read on a penetrometer, not on a oven"):
        read(oven, grease, technician)

    row = in_service(by=manager)
    clock.set_to(dt.datetime(2027, 1, 2, 8, tzinfo=dt.UTC))
    with pytest.raises(WrongMove, match="expired on 2026-12-31"):
        read(row, grease, technician)


def test_who_may_not_is_refused(grease, worked, manager, technician, despatch):
    row = in_service(by=manager)

    with pytest.raises(NotAllowed):
        read(row, grease, despatch)
    with pytest.raises(NotAllowed):
        material(worked, technician, lot="RG-8")
    assert ReferenceMaterial.objects.count() == 1


def test_a_page_opened_before_a_change_takes_nothing_out(grease, manager, technician):
    row = in_service(by=manager)

    with pytest.raises(ChangedSince):
        read(row, grease, technician, BAD, version=0)
    assert not ReferenceReading.objects.exists()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": " "}, "name"),
        ({"lot": ""}, "lot"),
        ({"basis": ""}, "basis"),
        ({"assigned": "about 286"}, "assigned"),
        ({"assigned": ""}, "assigned"),
        ({"deviation": "0"}, "deviation"),
        ({"deviation": "x"}, "deviation"),
        ({"deviation_basis": " "}, "deviation_basis"),
        ({"count": 0}, "count"),
        ({"count": 11}, "count"),
        ({"every_days": 0}, "every_days"),
        ({"every_days": 367}, "every_days"),
        ({"expires_on": dt.date(2026, 3, 3)}, "expires_on"),
        ({"expires_on": dt.date(2226, 3, 3)}, "expires_on"),
    ],
)
def test_a_material_that_does_not_say_enough_is_refused(worked, manager, change, field):
    with pytest.raises(BadInput) as refused:
        material(worked, manager, **change)

    assert refused.value.field == field
    assert not ReferenceMaterial.objects.exists()


def test_a_lot_is_added_once(grease, worked, manager):
    with pytest.raises(BadInput, match="stands here already"):
        material(worked, manager)


def test_without_a_stated_deviation_limits_wait_for_fifteen_readings(
    worked, manager, technician
):
    grease = material(worked, manager, deviation="", deviation_basis="")
    row = checked(in_service(by=manager), by=manager, due_in_days=200)
    for place in range(15):
        found = read(row, grease, technician, (str(285 + place % 3), "286", "286"))
        assert found.finding == "no limit yet"
        assert f"{place} readings stand" in found.deviation_basis
        later()

    found = read(row, grease, technician, BAD)

    assert found.finding == "beyond the action limit"
    assert found.deviation_basis == "15 readings of PEN-01, moving range"


def test_which_readings_are_missing(grease, manager, technician):
    row = checked(in_service(by=manager), by=manager, due_in_days=60)
    (missed,) = reference_queries.missing(on=today())
    assert (missed.instrument, missed.material, missed.last) == (row, grease, None)

    read(row, grease, technician)
    assert reference_queries.missing(on=today()) == []
    assert reference_queries.missing(on=today() + dt.timedelta(days=6)) == []
    (missed,) = reference_queries.missing(on=today() + dt.timedelta(days=7))
    assert missed.last == today()


def test_a_failure_stands_between_the_last_good_finding_and_itself(
    grease, manager, technician
):
    row = in_service(by=manager)
    assert failure_of(row) is None
    later()
    good = read(row, grease, technician)
    later()
    bad = read(row, grease, technician, BAD)
    later()
    actions.record_check(
        instrument=row,
        done_on=today(),
        due_on=None,
        found="shaft bent",
        is_fit=False,
        by=technician,
    )

    unfit, failed = failures_of(row)

    assert (failed.bias, failed.unit) == (10, "0.1 mm")
    assert (failed.before.reading, failed.found.reading) == (good, bad)
    assert (unfit.bias, unfit.unit, unfit.found.words) == (None, None, "shaft bent")
    assert unfit.before == failed.before
    assert failure_of(row, failed.found.key) == failed
    assert failure_of(row, "c0") is None
