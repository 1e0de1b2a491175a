"""`verify` looks at every kept file."""

from django.core.files.storage import default_storage

from lims.record import verify
from tests.factories import bringing


def test_files_that_are_kept_as_they_came_hold(manager):
    bringing.received(by=manager)

    assert "The files brought in: 1, each kept as it came" in verify.verify().lines


def test_an_altered_file_is_named(manager):
    row = bringing.received(by=manager)
    with default_storage.open(row.stored_as, "wb") as file:
        file.write(b"other")

    assert "penbook.csv" in verify.verify().first_wrong


def test_a_missing_file_is_named(manager):
    row = bringing.received(by=manager)
    default_storage.delete(row.stored_as)

    assert "is missing" in verify.verify().first_wrong
