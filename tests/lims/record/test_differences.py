"""A stored value has one text, whatever its type; equal texts mean equal values."""

import datetime as dt

import pytest
from django.db import models

from lims.people.models import Person, Site
from lims.record import clock, differences, opening
from lims.record.gate import GateError, Recorded, entry

NOON_IN_TOKYO = dt.datetime(
    2026, 3, 4, 21, 0, tzinfo=dt.timezone(dt.timedelta(hours=9))
)


@pytest.mark.parametrize(
    ("field", "value", "text"),
    [
        (models.CharField(), None, None),
        (models.CharField(), "0.50", "0.50"),
        (models.IntegerField(), 7, "7"),
        (models.BooleanField(), True, "yes"),
        (models.BooleanField(), False, "no"),
        (models.DateField(), dt.date(2026, 3, 4), "2026-03-04"),
        (models.TimeField(), dt.time(8, 5), "08:05:00"),
        (models.DateTimeField(), NOON_IN_TOKYO, "2026-03-04T12:00:00.000000Z"),
        (models.JSONField(), {"b": ["1"], "a": "2"}, '{"a":"2","b":["1"]}'),
        (
            models.BinaryField(),
            memoryview(b"abc"),
            "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        ),
    ],
    ids=[
        "none",
        "text",
        "number",
        "yes",
        "no",
        "day",
        "time",
        "instant",
        "json",
        "bytes",
    ],
)
def test_a_value_has_its_text(field, value, text):
    assert differences.text_of(field, value) == text


def test_a_long_frozen_text_stands_as_its_hash(monkeypatch):
    monkeypatch.setattr(Site, "hashed_fields", frozenset({"address"}))

    assert differences.shown(Site, "name", "abc") == "abc"
    assert differences.shown(Site, "address", "abc").startswith("sha256:ba7816bf")


def test_what_was_empty_when_the_row_was_made_is_no_difference():
    row = differences.Touched(Person, 1, "Ada")
    made = differences.differences(row, None, {"name": "Ada", "mail": "", "x": None})
    emptied = differences.differences(row, {"mail": None}, {"mail": ""})

    assert [each.field for each in made] == ["name"]
    assert [(each.before, each.after) for each in emptied] == [(None, "")]


def test_a_row_read_in_part_is_saved_in_part(plant):
    part = Person.objects.only("name").get(pk=plant.pk)

    with entry(by=plant, verb="person_changed", about=plant) as it:
        part.name = "Ada the Second"
        part.save()
        changed = [each.field for each in it.changes()]

    assert changed == ["name"]
    assert part.account == "administrator"


def test_a_row_read_again_may_be_saved_after_somebody_elses_change(plant):
    mine = Person.objects.get(pk=plant.pk)
    with entry(by=plant, verb="person_changed", about=plant):
        plant.name = "Ada the Second"
        plant.save()

    mine.refresh_from_db()
    with entry(by=plant, verb="person_changed", about=mine):
        mine.name = "Ada the Third"
        mine.save()

    assert Person.objects.get(pk=plant.pk).name == "Ada the Third"


def test_an_entry_and_its_rows_live_in_one_database(plant):
    with entry(by=plant, verb="person_changed", about=plant, note="x"):
        with pytest.raises(GateError, match="one database"):
            opening.demand(plant, "elsewhere")
        opening.demand(plant, "default")


def test_a_row_has_a_key_and_a_name_unless_its_model_says_better():
    assert Recorded.record_key(Site(pk=4)) == ("site", "4", "site 4")


def test_the_time_of_an_entry_is_the_clocks(plant, morning):
    clock.set_to(NOON_IN_TOKYO)
    with entry(by=plant, verb="record_verified", about=plant, note="x") as it:
        pass

    assert differences.utc_text(it.at) == "2026-03-04T12:00:00.000000Z"
