"""An archive becomes a database again: the same rows, the same record, the same files, and it goes on from there."""

import io
import json

import pytest
from django.core.files.storage import default_storage
from django.db import IntegrityError, connection, transaction

from lims.instruments import actions as instruments
from lims.instruments.models import Instrument
from lims.methods import actions as methods
from lims.methods import queries as method_queries
from lims.methods.models import FiguresRevision
from lims.people.models import Person
from lims.people.queries import person
from lims.record import doors, queries, triggers
from lims.record.archive.restoring import restore
from lims.record.models import Entry
from lims.record.verify import verify
from tests.lims.record.archive.conftest import archive_bytes, manifest_of, parts_of


@pytest.fixture
def restored(archived, emptied):
    return restore(io.BytesIO(archived))


def told(parts):
    """The rows of each table as an archive tells them, whatever the order inside a JSON value."""
    return {
        name: [json.loads(line) for line in content.splitlines()]
        for name, content in parts.items()
        if name.startswith("tables/")
    }


def test_every_row_comes_back_as_it_was(archived, restored):
    before, after = parts_of(archived), parts_of(archive_bytes())

    assert told(after) == told(before)
    rows = {name: len(lines) for name, lines in told(before).items()}
    assert rows["tables/bench.Reading.jsonl"] > 100
    assert rows["tables/certificates.CertificateRevision.jsonl"] > 5
    assert rows["tables/imports.HistoryLine.jsonl"] > 5
    assert rows["tables/bench.Trace.jsonl"] > 0


def test_the_record_comes_back_to_the_byte_and_one_entry_tells_of_it(
    archived, restored
):
    before, after = parts_of(archived), parts_of(archive_bytes())

    own = before["entries.jsonl"]
    assert after["entries.jsonl"].startswith(own)
    (last,) = after["entries.jsonl"].removeprefix(own).splitlines()
    entry = Entry.objects.get(seq=json.loads(last)["seq"])
    assert (entry.verb, entry.account) == ("record_restored", "kettlemark")
    assert restored.head in entry.note
    assert entry.previous == restored.head == manifest_of(before)["head"]


def test_every_file_comes_back_to_the_byte(archived, restored):
    files = {
        name.removeprefix("files/"): content
        for name, content in parts_of(archived).items()
        if name.startswith("files/")
    }

    for name, content in files.items():
        with default_storage.open(name) as file:
            assert file.read() == content, name
    assert len(files) > 5
    assert len(restored.files) == len(files)


def test_the_record_holds_and_every_guard_stands(restored):
    report = verify()

    assert report.holds, report.lines
    assert triggers.missing("default") == []
    assert not doors.stands_open("default")


def test_no_row_is_written_past_the_record_afterwards(restored):
    with (
        pytest.raises(IntegrityError),
        transaction.atomic(),
        connection.cursor() as cursor,
    ):
        cursor.execute("UPDATE products_product SET name = 'x'")


def test_every_account_comes_back_without_a_password(archived, restored):
    people = Person.objects.all()

    assert len(people) > 3
    assert not any(it.has_usable_password() for it in people)
    assert len({it.password for it in people}) == len(people)
    assert b"argon2" not in b"".join(parts_of(archived).values())
    rows = told(parts_of(archived))["tables/people.Person.jsonl"]
    assert not any("password" in row for row in rows)


def test_work_goes_on_with_the_next_numbers(restored):
    given = {
        model: max(model._base_manager.values_list("pk", flat=True), default=0)
        for model in (Instrument, Entry)
    }
    row = instruments.add_instrument(
        number="PEN-99", kind="penetrometer", note="", by=person("mgr-1")
    )

    assert row.pk > given[Instrument]
    assert queries.tail().seq == given[Entry] + 1
    assert verify().holds


def test_the_key_of_a_row_that_is_gone_is_not_given_again(small, emptied):
    restore(io.BytesIO(small))
    edition = method_queries.edition("ASTM D217", "21a")

    fresh = methods.open_figures_draft(edition=edition, by=person("chem-1"))

    told = [
        change["id"]
        for content in Entry.objects.values_list("content", flat=True)
        for change in json.loads(content)["changes"]
        if change["model"] == "methods.FiguresRevision"
    ]
    (gone,) = discarded(told)
    assert fresh.pk > int(gone)


def discarded(keys):
    """The keys that no row has any more."""
    standing = {str(pk) for pk in FiguresRevision.objects.values_list("pk", flat=True)}
    return set(keys) - standing
