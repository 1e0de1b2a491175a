"""Instruments and their dated checks from a table."""

import datetime as dt

import pytest

from lims.instruments.models import Check, Instrument
from lims.record.models import Entry
from lims.record.refusals import NotAllowed
from tests.factories import instruments

HEADS = ("Instrument", "Kind", "Remark", "Checked on", "Next check due", "Found", "Fit")
PEN = (
    "PEN-02",
    "penetrometer",
    "bench 1",
    dt.date(2026, 2, 2),
    dt.date(2026, 8, 2),
    "286 on 286",
    "ja",
)
EARLIER = ("", "", "", dt.date(2025, 8, 1), dt.date(2026, 2, 1), "285 on 286", "yes")


@pytest.fixture
def manager(person):
    return person("laboratory_manager")


def test_an_instrument_comes_with_all_its_checks(table, manager):
    table("instruments", HEADS, PEN, EARLIER).take_in(by=manager)

    it = Instrument.objects.get()
    assert (it.number, it.kind, it.note) == ("PEN-02", "penetrometer", "bench 1")
    assert it.due_on == dt.date(2026, 8, 2)
    assert [row.found for row in it.checks.all()] == ["286 on 286", "285 on 286"]
    assert Entry.objects.first().note == "added: 3, instruments: 1, checks: 2"


def test_one_that_was_found_unfit_is_out_of_service(table, manager):
    unfit = (*PEN[:4], "", "cone bent", "nein")
    table("instruments", HEADS, unfit).take_in(by=manager)

    it = Instrument.objects.get()
    assert (it.state, it.state_reason) == ("out of service", "cone bent")


def test_an_instrument_without_a_check_is_overdue_until_it_has_one(table, manager):
    table("instruments", HEADS[:3], PEN[:3]).take_in(by=manager)

    assert not Check.objects.exists()
    assert Instrument.objects.get().state_on(dt.date(2026, 3, 4)) == "overdue"


def test_a_check_that_is_here_is_not_added_again(table, manager):
    table("instruments", HEADS, PEN).take_in(by=manager)
    again = table("instruments", HEADS, PEN, EARLIER)

    row = again.take_in(by=manager, content=b"with one more")

    assert Check.objects.count() == 2
    assert row.counts["checks here already"] == 1


def test_an_older_check_does_not_move_the_day_that_the_next_is_due(table, manager):
    table("instruments", HEADS, PEN).take_in(by=manager)
    table("instruments", HEADS, ("PEN-02", *EARLIER[1:])).take_in(
        by=manager, content=b"older"
    )

    assert Instrument.objects.get().due_on == dt.date(2026, 8, 2)


@pytest.mark.parametrize(
    ("row", "key", "sentence"),
    [
        (("PEN", *PEN[1:]), "A/does not fit", "with a digit among them"),
        (("PEN-02", "", *PEN[2:]), "B/does not fit", "write its kind"),
        ((*PEN[:3], "", *PEN[4:]), "D/does not fit", "day on which it was checked"),
        ((*PEN[:4], "", *PEN[5:]), "E/does not fit", "when the next check is due"),
        ((*PEN[:4], dt.date(2026, 1, 1), *PEN[5:]), "E/does not fit", "after this one was done"),
        ((*PEN[:5], "", "ja"), "F/does not fit", "Say what was found"),
        ((*PEN[:6], "perhaps"), "G/cannot be read", "write one of yes, no"),
        ((*PEN[:3], "31/02/2026", *PEN[4:]), "D/no such day", "no days of the calendar"),
        ((*PEN[:3], dt.date(2026, 5, 1), *PEN[4:]), "D/after today", "after today"),
    ],
)  # fmt: skip
def test_a_check_that_cannot_stand_is_refused_with_what_to_write(
    table, plant, row, key, sentence
):
    asked = table("instruments", HEADS, row).asks()

    assert list(asked) == [key]
    assert sentence in asked[key].sentence


def test_whether_it_was_fit_is_asked_once(table, manager):
    it = table("instruments", HEADS[:6], PEN[:6], EARLIER[:6])

    question = it.asks()["A/fit"]
    assert question.count == 2
    assert question.proposed == ""
    it.choices["A/fit"] = "yes"
    it.take_in(by=manager)

    assert Check.objects.filter(is_fit=True).count() == 2


def test_a_retired_instrument_takes_no_check(table, manager):
    from lims.instruments import actions

    pen = instruments.instrument(by=manager, number="PEN-02")
    actions.retire(instrument=pen, reason="worn out", by=manager)

    asked = table("instruments", HEADS[:1] + HEADS[3:], PEN[:1] + PEN[3:]).asks()

    assert "is retired" in asked["A/does not fit"].sentence


def test_what_stands_here_is_kept(table, manager):
    instruments.instrument(by=manager, number="PEN-02", kind="cone penetrometer")
    it = table("instruments", HEADS, PEN)

    assert set(it.asks()) == {"B/differs", "C/differs"}
    it.choices = {"B/differs": "cells", "C/differs": "cells"}
    it.take_in(by=manager)

    assert Instrument.objects.get().kind == "cone penetrometer"


def test_who_keeps_instruments_and_checks_none_brings_no_checks(table, person):
    by = person("quality_manager")

    with pytest.raises(NotAllowed, match="Checking instruments is for"):
        table("instruments", HEADS, PEN).take_in(by=by)

    assert not Instrument.objects.exists()
    table("instruments", HEADS[:3], PEN[:3]).take_in(by=by)
    assert Instrument.objects.count() == 1
