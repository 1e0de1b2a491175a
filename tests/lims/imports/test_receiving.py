"""Receiving a file: kept as it came, once, by whoever may."""

import hashlib

import pytest
from django.core.files.storage import default_storage

from lims.imports import actions, rules
from lims.imports.models import Import, Staging
from lims.record import clock
from lims.record.models import Entry
from lims.record.refusals import BadInput, NotAllowed, WrongMove
from tests.factories import bringing

CONTENT = "Charge;Walkpenetration\nQ1-25-0377;280,5\n".encode("cp1252")


def test_the_file_is_kept_as_it_came_with_its_hash(manager):
    row = bringing.received(by=manager, content=CONTENT)

    assert actions.content_of(row) == CONTENT
    assert row.sha256 == hashlib.sha256(CONTENT).hexdigest()
    assert row.size == len(CONTENT)
    assert Entry.objects.first().verb == "file_received"
    assert Staging.objects.get().stage == "waiting"


def test_its_name_never_leads_anywhere_in_the_storage(manager):
    row = bringing.received(by=manager, name="..\\..\\etc/passwd\x00.csv")

    assert row.name == "passwd.csv"
    assert row.stored_as.startswith("imports/")
    assert "passwd" not in row.stored_as


def test_the_same_bytes_waiting_are_the_same_import(manager):
    first = bringing.received(by=manager, content=CONTENT)

    again = bringing.received(by=manager, content=CONTENT, name="other.csv")

    assert again == first
    assert Import.objects.count() == 1


def test_the_same_bytes_taken_in_before_add_nothing(manager):
    bringing.taken_in(by=manager, content=CONTENT)
    entries = Entry.objects.count()

    with pytest.raises(BadInput, match="taken in on 2026-03-04 by Laboratory Manager"):
        bringing.received(by=manager, content=CONTENT, name="other.csv")

    assert Entry.objects.count() == entries


@pytest.mark.parametrize(
    ("content", "sentence"),
    [(b"", "is empty"), (b"x" * (rules.LARGEST + 1), "split it")],
)
def test_an_empty_or_too_large_file_is_refused(content, sentence, manager):
    with pytest.raises(BadInput, match=sentence):
        bringing.received(by=manager, content=content)

    assert not Import.objects.exists()


@pytest.mark.parametrize(
    ("kind", "role"),
    [
        ("history", "technician"),
        ("specifications", "technician"),
        ("customers", "technologist"),
        ("figures", "technician"),
        ("instruments", "technician"),
        ("samples", "despatch"),
        ("log", "quality_manager"),
    ],
)
def test_each_kind_needs_what_its_hand_made_twin_needs(kind, role, person):
    by = person(role)

    with pytest.raises(NotAllowed):
        bringing.received(by=by, kind=kind)

    assert kind not in rules.kinds_for(by)


def test_no_kind_at_all_is_refused(manager):
    with pytest.raises(BadInput, match="what the file holds"):
        bringing.received(by=manager, kind="something")


def test_a_file_whose_entry_fails_is_not_left_in_the_storage(manager, monkeypatch):
    def fails(*_args, **_more):
        raise RuntimeError("the disk is full")

    monkeypatch.setattr(Import, "save", fails)

    with pytest.raises(RuntimeError):
        bringing.received(by=manager)

    assert default_storage.listdir("imports")[1] == []


def test_a_kept_file_that_was_altered_is_not_read(manager):
    row = bringing.received(by=manager, content=CONTENT)
    with default_storage.open(row.stored_as, "wb") as file:
        file.write(b"Charge;Walkpenetration\nQ1-25-0377;290\n")

    with pytest.raises(BadInput, match="not as it was received"):
        actions.content_of(row)


def test_a_kept_file_that_is_gone_is_told(manager):
    row = bringing.received(by=manager)
    default_storage.delete(row.stored_as)

    with pytest.raises(BadInput, match="cannot be opened"):
        actions.content_of(row)


def test_nothing_is_said_of_a_file_that_was_left(manager):
    row = bringing.received(by=manager)
    actions.leave(import_of=row, reason="the wrong file", by=manager)

    with pytest.raises(WrongMove, match="is left"):
        actions.map_columns(import_of=row, mapping={}, by=manager)


@pytest.mark.parametrize(
    ("kind", "remedy"),
    [
        (Import.Kind.HISTORY, "Withdraw what it brought"),
        (Import.Kind.LOG, "Withdraw what it brought"),
        (Import.Kind.INSTRUMENTS, "change it there"),
        (Import.Kind.SAMPLES, "change it there"),
        (Import.Kind.SPECIFICATIONS, "change it there"),
        (Import.Kind.CUSTOMERS, "change it there"),
        (Import.Kind.FIGURES, "change it there"),
    ],
)
def test_a_file_that_was_taken_in_says_what_can_be_done(
    kind, remedy, manager, monkeypatch
):
    it = Import(name="book.csv", kind=kind, taken_at=clock.now(), taken_by=manager)
    monkeypatch.setattr(rules, "taken_in_before", lambda *_: it)

    with pytest.raises(BadInput, match=remedy):
        rules.check_not_taken_in("0" * 64, kind)
