"""Logs of pressure and temperature from a table: one block a sensor, with what it is of."""

import datetime as dt
from decimal import Decimal

import pytest

from lims.bench.actions import samples
from lims.imports import actions, queries
from lims.imports.kinds import logs
from lims.imports.models import Log
from lims.methods import queries as methods
from lims.people.queries import person as person_of
from lims.record.models import Entry
from lims.record.refusals import BadInput
from tests.factories import bringing
from tests.factories import plant as works

HEADS = ("Time (min)", "Pressure (kPa)", "Bath T")
ROWS = [(it * 10, f"{758 - it},5", "98.9") for it in range(6)]


@pytest.fixture
def technician(person):
    return person("technician")


@pytest.fixture
def vessel(table):
    it = table("log", HEADS, *ROWS, units={"A": "min", "B": "kPa", "C": ""})
    it.choices = {"B/subject": "heading", "C/subject": "heading", "C/unit": "°C"}
    it.instead = {"B1": "Vessel 3"}
    return it


def test_the_unit_and_what_was_logged_are_asked_once_a_column(table, plant):
    it = table("log", HEADS, *ROWS, units={"A": "min", "B": "kPa", "C": ""})

    asked = it.asks()

    assert set(asked) == {"B/subject", "C/subject", "C/unit"}
    assert {"kPa", "psi", "°C", "°F", "left out"} <= {
        one.key for one in asked["C/unit"].choices
    }
    assert {one.level for one in asked.values()} == {"column"}


def test_each_sensor_is_one_block(vessel, technician):
    entries = Entry.objects.count()
    row = vessel.take_in(by=technician)

    pressure, bath = Log.objects.order_by("pk")
    assert (pressure.subject, pressure.measures, pressure.unit) == (
        "Vessel 3",
        "pressure",
        "kPa",
    )
    assert (bath.subject, bath.measures, bath.unit) == ("Bath T", "temperature", "°C")
    assert pressure.count == 6
    assert logs.points_of(pressure)[:2] == (
        (Decimal(0), Decimal("758.5")),
        (Decimal(10), Decimal("757.5")),
    )
    assert row.counts["added"] == 2
    assert row.counts["points"] == 12
    assert Entry.objects.count() == entries + 2


def test_the_same_log_from_another_file_is_not_kept_again(vessel, technician):
    vessel.take_in(by=technician)

    row = vessel.take_in(by=technician, content=b"saved anew")

    assert Log.objects.count() == 2
    assert row.counts["logs here already"] == 2


def test_a_withdrawn_log_can_come_again(vessel, technician, person):
    row = vessel.take_in(by=technician)
    actions.withdraw(import_of=row, reason="of another vessel", by=technician)

    vessel.take_in(by=technician)

    assert Log.objects.count() == 4


def test_day_and_clock_of_the_first_reading_are_kept(table, technician):
    start = dt.datetime.fromisoformat("2026-03-02 08:00")
    rows = [(start + dt.timedelta(minutes=it), 758 - it) for it in (0, 1, 2, 5)]
    it = table("log", ("Timestamp", "P"), *rows, units={"B": "psi"})
    it.choices = {"B/subject": "heading"}

    it.take_in(by=technician)

    log = Log.objects.get()
    assert log.started_at.isoformat() == "2026-03-02T07:00:00+00:00"
    assert [time for time, _ in logs.points_of(log)] == [0, 1, 2, 5]


def test_a_log_can_be_of_a_test_over_hours(table, db):
    works.open_plant()
    works.play(works.story(tests={}), until="2026-03-05 08:53")
    lot = works.lot()
    by = person_of("tech-a")
    sample = lot.samples.get()
    test = samples.add_test(
        sample=sample,
        characteristic=methods.characteristic("oxidation-drop"),
        edition=methods.edition("ASTM D942", "19"),
        by=by,
    )
    it = table(
        "log", HEADS[:2], *(row[:2] for row in ROWS), units={"A": "min", "B": "kPa"}
    )

    key = next(
        one.key for one in it.asks()["B/subject"].choices if one.key.startswith("test ")
    )
    it.choices["B/subject"] = key
    it.take_in(by=by)

    log = queries.log(Log.objects.get().pk)
    assert log.test == test
    assert log.subject == "Q1-26-0417-A-01, Oxidation, pressure drop"


def test_a_sensor_without_readings_is_no_log(table, technician):
    it = table("log", HEADS[:2], (0, ""), (1, ""), units={"A": "min", "B": "kPa"})
    it.choices = {"B/subject": "heading"}
    row = bringing.received(by=technician, kind="log")

    with pytest.raises(BadInput, match="has 0 readings with a time"):
        actions.take_in(import_of=row, tables=[it.look()], by=technician)


def test_a_column_of_something_else_is_left_out(vessel, technician):
    vessel.choices["C/unit"] = "left out"

    vessel.take_in(by=technician)

    assert Log.objects.get().subject == "Vessel 3"
