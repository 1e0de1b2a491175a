"""`manage.py archive` and `manage.py restore`: a file of the whole record, and an empty database made of it, or a sentence and nothing."""

import io
import re
import stat

import pytest
from django.core.management import CommandError, call_command
from django.test import Client

from lims.imports.actions import receive
from lims.imports.models import Import, Staging
from lims.people.models import Person
from lims.people.queries import person
from lims.record import queries
from lims.record.archive.manifest import read
from lims.record.models import Entry
from lims.sheets.looking import looked
from tests.factories import plant as plant_of_tests
from tests.lims.record.archive.conftest import (
    archive_of,
    manifest_of,
    parts_of,
    small,
)

__all__ = ["small"]  # a fixture


def run(name, *given, **options):
    out = io.StringIO()
    call_command(name, *given, stdout=out, **options)
    return out.getvalue()


@pytest.fixture
def storage(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path / "files"
    return tmp_path


@pytest.fixture
def kept(small, storage):
    file = storage / "record.zip"
    file.write_bytes(small)
    return file


def test_the_file_holds_the_record_up_to_the_entry_that_tells_of_it(plant, storage):
    file = storage / "record.zip"

    said = run("archive", str(file))

    manifest = read(parts_of(file.read_bytes())["manifest.json"])
    last = Entry.objects.get(seq=queries.tail().seq)
    assert (last.verb, last.account) == ("archive_begun", "kettlemark")
    assert (manifest.entries, manifest.head) == (last.seq, last.hash)
    assert last.hash in said


def test_the_file_can_be_read_by_its_owner_alone(plant, storage):
    file = storage / "record.zip"
    run("archive", str(file))

    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_a_file_that_is_there_is_not_overwritten(plant, storage):
    file = storage / "record.zip"
    file.write_text("older")

    with pytest.raises(CommandError, match="is there already: name another file"):
        run("archive", str(file))

    assert file.read_text() == "older"


def test_a_folder_that_is_missing_is_told(plant, storage):
    with pytest.raises(CommandError, match="cannot be written"):
        run("archive", str(storage / "no" / "record.zip"))


def test_an_empty_database_has_nothing_to_archive(db, storage):
    file = storage / "record.zip"

    with pytest.raises(CommandError, match="Nothing is recorded yet"):
        run("archive", str(file))

    assert list(storage.iterdir()) == []


def test_the_restoring_says_what_came_back_and_how_to_get_in(db, kept, small):
    said = run("restore", str(kept))

    manifest = manifest_of(parts_of(small))
    assert f"Restored {manifest['entries']} entries" in said
    assert manifest["head"] in said
    assert "The record holds." in said
    (account, address) = re.search(r"^(\S+) \(.*\): (/\S+)$", said, re.M).groups()
    assert person(account).roles == {"administrator"}
    assert Client().get(address).status_code == 200


def test_the_head_that_is_given_is_compared(db, kept, small):
    with pytest.raises(CommandError, match="Entry 2 of the archive has not the head"):
        run("restore", str(kept), entry=2, head="0123 4567")

    assert not Entry.objects.exists()
    manifest = manifest_of(parts_of(small))
    run("restore", str(kept), entry=manifest["entries"], head=manifest["head"].upper())
    assert Entry.objects.exists()


HALVES = [
    {"entry": 3},
    {"head": "01234567"},
    {"entry": 3, "head": "0123"},
    {"entry": 3, "head": "not a head"},
]


@pytest.mark.parametrize("given", HALVES)
def test_entry_and_head_are_given_together(db, kept, given):
    with pytest.raises(CommandError, match="give both"):
        run("restore", str(kept), **given)


def test_a_file_that_is_missing_is_told(db, storage):
    with pytest.raises(CommandError, match="cannot be read"):
        run("restore", str(storage / "record.zip"))


def test_a_refusal_is_one_sentence(plant, kept):
    with pytest.raises(CommandError, match="holds rows already"):
        run("restore", str(kept))

    assert Person.objects.get() == plant


def test_an_archive_of_a_restored_record_can_be_restored(db, kept, storage):
    run("restore", str(kept))
    again = storage / "again.zip"
    run("archive", str(again))

    verbs = Entry.objects.order_by("-seq").values_list("verb", flat=True)
    assert list(verbs[:2]) == ["archive_begun", "record_restored"]


def test_a_file_that_waits_to_be_taken_in_is_looked_at_again(db, storage, settings):
    archive = archive_of(storage / "there", _bring_a_file)
    file = storage / "record.zip"
    file.write_bytes(archive)

    said = run("restore", str(file))

    row = Import.objects.get()
    assert "book.csv waits to be taken in: it is looked at again." in said
    assert looked(row).stage == Staging.Stage.LOOKED_AT
    assert [name for name, *_ in looked(row).sheets] == ["book"]


def _bring_a_file():
    plant_of_tests.open_plant()
    content = b"Batch;Product;Date;Worked penetration\nQ1-25-0377;LX2;2025-11-03;281\n"
    receive(name="book.csv", content=content, kind="history", by=person("chem-1"))
