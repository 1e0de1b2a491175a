"""What an entry holds, and that it is never changed."""

import datetime as dt
import json

import pytest

from lims.people.models import Person
from lims.record import clock, doors
from lims.record.differences import utc_text
from lims.record.gate import GateError, entry
from lims.record.models import Entry
from specs import chain
from tests.lims.record.refused import refused


def renamed(person, name="Ada the Second", **told):
    with entry(by=person, verb="person_renamed", about=person, **told) as it:
        person.name = name
        person.save()
    return it


def test_an_entry_tells_who_when_what_about_what_and_why(plant, morning):
    it = renamed(plant, reason="Misspelt.", note="Asked by letter.")

    kept = Entry.objects.get(seq=it.seq)
    assert kept.at == "2026-03-04T07:00:00.000000Z"
    assert (kept.account, kept.verb) == ("administrator", "person_renamed")
    assert kept.printed_name == "Ada Ministrator"
    assert (kept.about_kind, kept.about_key) == ("person", "administrator")
    assert (kept.reason, kept.note) == ("Misspelt.", "Asked by letter.")


def test_an_entry_tells_each_difference_before_and_after(plant):
    renamed(plant)

    assert Entry.objects.first().changes == [
        {
            "model": "people.Person",
            "id": str(plant.pk),
            "name": "Ada the Second",
            "field": "name",
            "before": "Ada Ministrator",
            "after": "Ada the Second",
        }
    ]


def test_a_row_saved_twice_in_an_entry_is_told_once(plant):
    with entry(by=plant, verb="person_renamed", about=plant):
        for name in ("A", "B"):
            plant.name = name
            plant.save()

    (change,) = Entry.objects.first().changes
    assert (change["before"], change["after"]) == ("Ada Ministrator", "B")


def test_a_deleted_row_is_told_with_what_it_held(plant):
    role = plant.roles_given.get()
    with entry(by=plant, verb="role_deleted", about=plant):
        role.delete()

    told = {each["field"]: each for each in Entry.objects.first().changes}
    assert told["role"]["before"] == "administrator"
    assert told["role"]["after"] is None


def test_a_secret_is_told_as_changed_but_not_shown(plant):
    with entry(by=plant, verb="password_changed", about=plant):
        plant.set_password("nine loud bitterns")
        plant.save()

    kept = Entry.objects.first()
    assert kept.changes[0]["field"] == "password"
    assert kept.changes[0]["after"] == "(hidden)"
    assert "argon2" not in kept.content


def test_the_system_itself_acts_under_its_own_name(plant):
    first = Entry.objects.get(seq=1)

    assert (first.account, first.printed_name) == ("kettlemark", "Kettlemark")


def test_each_entry_is_chained_to_the_one_before(plant):
    before = Entry.objects.first()
    it = renamed(plant)
    kept = Entry.objects.first()

    assert (it.previous_seq, it.previous_head) == (before.seq, before.hash)
    assert (it.seq, it.head) == (before.seq + 1, kept.hash)
    assert kept.previous == before.hash
    assert kept.hash == chain.next_head(before.hash, kept.content.encode())
    assert kept.content.encode() == chain.canonical(json.loads(kept.content))


def test_the_first_entry_follows_the_first_head(plant):
    assert Entry.objects.get(seq=1).previous == chain.FIRST_HEAD


def test_an_entry_is_not_saved_again_nor_deleted(plant):
    kept = Entry.objects.first()

    with pytest.raises(GateError, match="written once"):
        kept.save()
    with pytest.raises(GateError, match="never deleted"):
        kept.delete()
    with pytest.raises(GateError, match="past the record"):
        Entry.objects.all().delete()


def test_an_entry_is_added_by_the_gate_alone(plant):
    with pytest.raises(GateError, match="Only the write gate"):
        Entry(seq=99).save()


@pytest.mark.parametrize(
    "sql",
    [
        "UPDATE record_entry SET note = 'x' WHERE seq = 1",
        "DELETE FROM record_entry WHERE seq = 1",
        (
            "INSERT INTO record_entry SELECT 99, at, account, printed_name, verb, about_kind, "
            "about_key, about_name, reason, note, content, previous, hash FROM record_entry "
            "WHERE seq = 1"
        ),
    ],
)
def test_the_database_refuses_any_change_of_the_record(plant, sql):
    assert "record_entry" in refused(sql)


def test_the_database_refuses_changes_of_entries_even_while_one_is_open(plant):
    with entry(by=plant, verb="record_verified", about=plant, note="x"):
        refused("UPDATE record_entry SET note = 'x' WHERE seq = 1")
        refused("DELETE FROM record_entry WHERE seq = 1")
        refused(
            "INSERT INTO record_entry SELECT 99, at, account, printed_name, verb, "
            "about_kind, about_key, about_name, reason, note, content, previous, hash "
            "FROM record_entry WHERE seq = 1"
        )


def test_texts_are_kept_as_they_are_stored(plant):
    kept = Person.objects.get(pk=plant.pk)
    with entry(by=plant, verb="person_deactivated", about=kept):
        kept.is_active = False
        kept.created_at = clock.now().replace(hour=8)
        kept.save()

    told = {each["field"]: each for each in Entry.objects.first().changes}
    assert (told["is_active"]["before"], told["is_active"]["after"]) == ("yes", "no")
    assert told["created_at"]["after"] == "2026-03-04T08:00:00.000000Z"


def test_an_entry_that_waited_for_its_turn_bears_the_time_of_its_turn(
    plant, morning, monkeypatch
):
    turn = morning + dt.timedelta(minutes=3)
    monkeypatch.setattr(doors, "lock_tail", lambda using: clock.set_to(turn))

    with entry(by=plant, verb="person_added", about=plant, note="waited") as it:
        pass

    assert it.at == turn
    assert Entry.objects.order_by("seq").last().at == utc_text(turn)
