"""Nothing is written outside an entry, whichever way it is tried."""

import json

import pytest
from django.contrib.admin import AdminSite, ModelAdmin
from django.core.management import call_command
from django.db import Error, connection, models, transaction
from django.db.models.deletion import Collector

from lims.people.models import Person, RoleGiven, Site
from lims.record import opening
from lims.record.gate import GateError, entry
from lims.record.models import Entry, OpenGate
from lims.record.refusals import ChangedSince
from tests.lims.record.refused import refused

INSIDE = "only inside an entry"


def test_a_row_is_not_saved_outside_an_entry(plant):
    plant.name = "Somebody Else"

    with pytest.raises(GateError, match=INSIDE):
        plant.save()

    assert Person.objects.get(pk=plant.pk).name == "Ada Ministrator"


def test_a_new_row_is_not_saved_outside_an_entry(plant, morning):
    with pytest.raises(GateError, match=INSIDE):
        Person.objects.create(account="tech-a", name="Tech-A", created_at=morning)

    assert Person.objects.count() == 1


def test_a_row_is_not_deleted_outside_an_entry(plant):
    with pytest.raises(GateError, match=INSIDE):
        RoleGiven.objects.get().delete()

    assert RoleGiven.objects.count() == 1


@pytest.mark.parametrize(
    "write",
    [
        lambda people: people.update(name="X"),
        lambda people: people.all().update(name="X"),
        lambda people: people.delete(),
        lambda people: people.all().delete(),
        lambda people: people.all()._raw_delete("default"),
        lambda people: people.bulk_create([Person(account="x")]),
        lambda people: people.bulk_update(people.all(), ["name"]),
        lambda people: people.get().roles_given.update(role="auditor"),
    ],
    ids=[
        "update",
        "all_update",
        "delete",
        "all_delete",
        "raw_delete",
        "bulk_create",
        "bulk_update",
        "related",
    ],
)
def test_many_rows_are_never_written_at_once_not_even_inside_an_entry(plant, write):
    with pytest.raises(GateError, match="past the record"):
        write(Person.objects)
    with (
        pytest.raises(GateError, match="past the record"),
        entry(by=plant, verb="role_given", about=plant),
    ):
        write(Person.objects)


def test_loaddata_is_refused(plant, tmp_path):
    file = tmp_path / "people.json"
    fields = {"account": "tech-a", "name": "Tech-A", "created_at": "2026-03-04T07:00Z"}
    file.write_text(json.dumps([{"model": "people.person", "fields": fields}]))

    with pytest.raises(GateError, match=INSIDE):
        call_command("loaddata", str(file), verbosity=0)

    assert Person.objects.count() == 1


def test_a_cascade_is_refused_by_the_database(plant, monkeypatch):
    link = RoleGiven._meta.get_field("person").remote_field
    monkeypatch.setattr(link, "on_delete", models.CASCADE)
    collector = Collector(using="default")
    collector.collect([plant])

    with pytest.raises(Error, match=INSIDE), transaction.atomic():
        collector.delete()

    assert RoleGiven.objects.count() == 1


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE people_person SET name = 'X'",
        "DELETE FROM people_rolegiven",
        (
            "INSERT INTO people_rolegiven (person_id, role, given_at, given_by, taken_by) "
            "SELECT id, 'auditor', created_at, 'X', '' FROM people_person"
        ),
        "UPDATE people_site SET allow_deputy_alone = (1 = 1)",
    ],
)
def test_raw_sql_is_refused(plant, sql):
    assert INSIDE in refused(sql)


def test_the_admin_site_is_refused(plant, rf):
    admin = ModelAdmin(Person, AdminSite())
    plant.name = "Somebody Else"

    with pytest.raises(GateError, match=INSIDE):
        admin.save_model(rf.post("/"), plant, form=None, change=True)
    with pytest.raises(GateError, match=INSIDE):
        admin.delete_model(rf.post("/"), plant)
    with pytest.raises(GateError, match="past the record"):
        admin.delete_queryset(rf.post("/"), Person.objects.all())


def test_an_entry_inside_an_entry_is_refused(plant):
    with (
        entry(by=plant, verb="role_given", about=plant, note="outer") as outer,
        pytest.raises(GateError, match="inside an entry is refused"),
        entry(by=plant, verb="role_given", about=plant, note="inner"),
    ):
        pass

    assert Entry.objects.first().seq == outer.seq


def test_an_entry_that_changes_nothing_needs_a_note(plant):
    before = Entry.objects.count()

    with (
        pytest.raises(GateError, match="changes nothing"),
        entry(by=plant, verb="role_given", about=plant),
    ):
        plant.save()
    with entry(by=plant, verb="record_verified", about=plant, note="It holds."):
        pass

    assert Entry.objects.count() == before + 1


def test_an_entry_says_what_it_is_about(plant):
    with (
        pytest.raises(GateError, match="what it is about"),
        entry(by=plant, verb="role_given", note="x"),
    ):
        pass


def test_nothing_happened_when_the_entry_cannot_be_written(plant, monkeypatch):
    before = Entry.objects.count()

    def broken(it):
        raise OSError("disk full")

    monkeypatch.setattr(opening, "_write", broken)
    plant.name = "Somebody Else"
    with (
        pytest.raises(OSError, match="disk full"),
        entry(by=plant, verb="person_renamed", about=plant),
    ):
        plant.save()

    assert Person.objects.get(pk=plant.pk).name == "Ada Ministrator"
    assert Entry.objects.count() == before


def test_the_gate_is_closed_again_after_an_entry_and_after_a_failure(plant):
    with entry(by=plant, verb="record_verified", about=plant, note="x"):
        pass
    assert INSIDE in refused("UPDATE people_person SET name = 'X'")

    with (
        pytest.raises(ZeroDivisionError),
        entry(by=plant, verb="record_verified", about=plant, note="x"),
    ):
        raise ZeroDivisionError
    assert INSIDE in refused("UPDATE people_person SET name = 'X'")
    assert opening.current() is None


@pytest.mark.skipif(connection.vendor != "sqlite", reason="the row is SQLite's half")
def test_a_gate_left_open_by_hand_stops_every_entry(plant):
    OpenGate.objects.create()

    with (
        pytest.raises(GateError, match="stands open"),
        entry(by=plant, verb="record_verified", about=plant, note="x"),
    ):
        pass


def test_a_savepoint_that_is_rolled_back_leaves_no_trace_in_the_entry(plant):
    def rename_and_fail():
        with transaction.atomic():
            plant.name = "Somebody Else"
            plant.save()
            raise ZeroDivisionError

    with entry(by=plant, verb="person_renamed", about=plant, note="x") as it:
        with pytest.raises(ZeroDivisionError):
            rename_and_fail()

        assert it.changes() == []


def test_somebody_elses_change_is_not_silently_undone(plant):
    seen = Person.objects.get(pk=plant.pk)
    with entry(by=plant, verb="person_renamed", about=plant):
        plant.name = "Ada the Second"
        plant.save()

    seen.name = "Ada the Third"
    with (
        pytest.raises(ChangedSince, match="changed by somebody else"),
        entry(by=plant, verb="person_renamed", about=plant),
    ):
        seen.save()


def test_a_version_is_raised_by_each_save_and_compared(plant):
    mine, theirs = Site.objects.get(), Site.objects.get()
    with entry(by=plant, verb="site_changed", about=theirs):
        theirs.language = "de"
        theirs.save_if_version(1)

    mine.name = "Quernstone Works"
    with (
        pytest.raises(ChangedSince),
        entry(by=plant, verb="site_changed", about=mine),
    ):
        mine.save_if_version(1, update_fields=["name"])

    assert mine.version == 1
    assert Site.objects.get().version == 2
    assert Site.objects.get().name == "Quernstone Grease Works"


def test_a_version_seen_earlier_than_the_row_in_hand_is_refused(plant):
    site = Site.objects.get()
    with entry(by=plant, verb="site_changed", about=site):
        site.language = "de"
        site.save()

    with (
        pytest.raises(ChangedSince),
        entry(by=plant, verb="site_changed", about=site),
    ):
        site.save_if_version(1)
