"""Whoever changes the record behind its back is found out, and the first wrong thing is named."""

import json

import pytest
from django.db import connection

from lims.people.models import Person
from lims.record import signatures, triggers, verify
from lims.record.gate import entry
from lims.record.models import Entry, OpenGate
from specs import chain
from tests.factories.people import PASSWORD
from tests.lims.record.refused import behind_the_triggers, run


def sign(person, about=None, **said):
    about = about or person
    told = {"meaning": "I have read it.", "version": 3, "content": '{"a":"1"}'} | said
    with entry(by=person, verb="site_changed", about=about):
        return signatures.sign(by=person, password=PASSWORD, about=about, **told)


def wrong():
    return verify.verify().first_wrong


def test_a_record_that_holds_says_how_long_it_is_and_its_head(plant):
    sign(plant)
    report = verify.verify()
    last = Entry.objects.first()

    assert report.holds
    assert report.lines[:3] == [
        f"The record: {last.seq} entries, unbroken, head {last.hash}",
        f"The triggers: all {len(triggers.expected('default'))} stand",
        "The signatures: 1, each on what it was given for",
    ]


def test_an_empty_record_holds(db):
    assert verify.verify().holds


def test_an_altered_content_is_named(plant):
    behind_the_triggers(
        "record_entry",
        "UPDATE record_entry SET content = replace(content, 'Ada', 'Eve') WHERE seq = 2",
    )

    assert wrong() == "entry 2 is not as it was written"


def test_an_altered_column_is_named(plant):
    behind_the_triggers(
        "record_entry", "UPDATE record_entry SET printed_name = 'Eve' WHERE seq = 2"
    )

    assert wrong() == "entry 2 shows another printed_name than its content"


def test_a_deleted_entry_is_named(plant):
    behind_the_triggers("record_entry", "DELETE FROM record_entry WHERE seq = 2")

    assert wrong() == "entry 2 is missing; the next one there is 3"


def test_an_inserted_entry_is_named(plant):
    last = Entry.objects.first()
    behind_the_triggers(
        "record_entry",
        "INSERT INTO record_entry SELECT seq + 1, at, account, printed_name, verb, "
        "about_kind, about_key, about_name, reason, note, content, previous, hash "
        "FROM record_entry WHERE seq = %s",
        last.seq,
    )

    assert wrong() == f"entry {last.seq + 1} does not follow entry {last.seq}"


def test_an_entry_written_anew_with_its_own_hash_breaks_the_next(plant):
    second = Entry.objects.get(seq=2)
    told = json.loads(second.content) | {"printed_name": "Eve"}
    content = chain.canonical(told).decode()
    behind_the_triggers(
        "record_entry",
        "UPDATE record_entry SET content = %s, printed_name = 'Eve', hash = %s "
        "WHERE seq = 2",
        content,
        chain.next_head(second.previous, content.encode()),
    )

    assert wrong() == "entry 3 does not follow entry 2"


def test_a_missing_trigger_is_named(plant):
    on = " ON people_site" if connection.vendor == "postgresql" else ""
    run(f"DROP TRIGGER people_site_gate_delete{on}")

    assert wrong() == "people_site_gate_delete is missing or altered"


@pytest.mark.skipif(connection.vendor != "sqlite", reason="the row is SQLite's half")
def test_a_gate_left_open_is_named(plant):
    OpenGate.objects.create()

    assert wrong() == "the gate stands open outside an entry"


def test_a_signature_moved_to_another_thing_is_named(plant):
    given = sign(plant)
    behind_the_triggers(
        "record_signature", "UPDATE record_signature SET about_key = 'someone'"
    )

    assert wrong() == (
        f"signature {given.pk} (Ada Ministrator, person someone) "
        "hangs on something else than it was given for"
    )


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            "UPDATE record_signature SET content = '{}'",
            "is not on the content that was signed",
        ),
        (
            "UPDATE record_signature SET version = 4",
            "hangs on something else than it was given for",
        ),
        (
            "UPDATE record_signature SET meaning = 'I refuse.'",
            "hangs on something else than it was given for",
        ),
        (
            "UPDATE record_signature SET account = 'eve'",
            "hangs on something else than it was given for",
        ),
        (
            "UPDATE record_signature SET printed_name = 'Eve'",
            "shows another printed_name than the record tells",
        ),
        (
            "UPDATE record_signature SET zone = 'UTC'",
            "shows another zone than the record tells",
        ),
    ],
    ids=["content", "version", "meaning", "account", "name", "zone"],
)
def test_a_signature_that_was_altered_is_named(plant, change, told):
    sign(plant)
    behind_the_triggers("record_signature", change)

    assert told in wrong()


def test_a_signature_that_no_entry_tells_of_is_named(plant):
    sign(plant)
    behind_the_triggers(
        "record_signature",
        "INSERT INTO record_signature (account, printed_name, function, at, zone, "
        "meaning, about_kind, about_key, version, content, content_hash) SELECT account, "
        "printed_name, function, at, zone, meaning, about_kind, about_key, version, "
        "content, content_hash FROM record_signature",
    )

    assert "is not told by any entry" in wrong()


def test_a_signature_that_is_gone_is_named(plant):
    given = sign(plant)
    behind_the_triggers("record_signature", "DELETE FROM record_signature")

    assert wrong() == f"signature {given.pk} is gone"


def test_a_room_adds_its_own_check(plant, monkeypatch):
    monkeypatch.setattr(verify, "_further", [])
    verify.register_check(
        lambda: verify.Finding("The files", f"{Person.objects.count()} is lost")
    )
    report = verify.verify()

    assert report.first_wrong == "1 is lost"
    assert report.lines[-1] == "The files: 1 is lost"
