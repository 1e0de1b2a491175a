"""What is no whole archive of a record that holds, or meets no empty database, restores nothing and says why."""

import hashlib
import io
import json
import zipfile

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage

from lims.people.models import Person
from lims.record.archive.checking import check_name
from lims.record.archive.making import stored_files
from lims.record.archive.restoring import restore
from lims.record.models import Entry
from lims.record.refusals import WrongMove
from specs import chain
from tests.factories import people
from tests.lims.record.archive.conftest import (
    archive_bytes,
    manifest_of,
    packed,
    parts_of,
)

SITE = "tables/people.Site.jsonl"


def refused(file, why, **how):
    with pytest.raises(WrongMove, match=why):
        restore(file, **how)


def untouched():
    return not (Entry.objects.exists() or Person.objects.exists() or [*stored_files()])


def altered(parts, name, content):
    """The same archive with another content of one part, its manifest made to fit."""
    manifest = manifest_of(parts)
    digest = hashlib.sha256(content).hexdigest()
    manifest["parts"][name] = {"size": len(content), "sha256": digest}
    told = json.dumps(manifest).encode()
    return parts | {name: content, "manifest.json": told}


def with_manifest(parts, **changes):
    told = manifest_of(parts) | changes
    return parts | {"manifest.json": json.dumps(told).encode()}


def renamed(parts, old, new):
    manifest = manifest_of(parts)
    manifest["parts"] = {
        new if name == old else name: part for name, part in manifest["parts"].items()
    }
    rest = {new if name == old else name: content for name, content in parts.items()}
    return rest | {"manifest.json": json.dumps(manifest).encode()}


def test_a_database_with_rows_is_left_alone(small, emptied):
    people.found_plant()
    before = Entry.objects.count()

    refused(io.BytesIO(small), "holds rows already.*make a new database")

    assert Entry.objects.count() == before


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7", b"PK\x03\x04", b"x" * 4000])
def test_a_file_that_is_no_archive_is_told_so(emptied, content):
    refused(io.BytesIO(content), "no archive, or it is damaged")


def test_another_zip_is_no_archive(emptied):
    refused(packed({"letter.txt": b"x"}), "holds no manifest.json")


def test_a_cut_archive_is_damaged(small, emptied):
    refused(io.BytesIO(small[: len(small) // 2]), "damaged")


def test_a_flipped_byte_is_found_before_anything_is_written(small, emptied):
    with zipfile.ZipFile(io.BytesIO(small)) as archive:
        head = archive.getinfo(SITE)
    place = head.header_offset + 30 + len(SITE) + 60
    harmed = small[:place] + bytes([small[place] ^ 0xFF]) + small[place + 1 :]

    refused(io.BytesIO(harmed), "damaged")

    assert untouched()


def test_a_part_that_was_exchanged_is_found_by_its_hash(small, emptied):
    parts = parts_of(small)
    other = parts[SITE].replace(b"Quernstone", b"Quernstine")
    assert other != parts[SITE]

    refused(packed(parts | {SITE: other}), f"{SITE} is not as it was")

    assert untouched()


def test_a_part_of_another_size_is_found(small, emptied):
    parts = parts_of(small)

    refused(packed(parts | {SITE: parts[SITE] + b"\n"}), "is not as it was")


@pytest.mark.parametrize("version", [2, 0, "1", None])
def test_another_version_of_the_form_is_refused(small, emptied, version):
    parts = with_manifest(parts_of(small), format=version)

    refused(packed(parts), "Restore it with the version of the program that wrote it")


@pytest.mark.parametrize(
    "content", [b"", b"[]", b"{}", b'{"format": 1}', b'{"format": 1, "parts": 3}']
)
def test_a_manifest_that_cannot_be_read_is_told_so(small, emptied, content):
    parts = parts_of(small) | {"manifest.json": content}

    refused(packed(parts), "manifest.json of this file cannot be read")


def test_a_part_that_the_manifest_does_not_name_is_refused(small, emptied):
    parts = parts_of(small) | {"files/more.txt": b"x"}

    refused(packed(parts), "not what its manifest names: files/more.txt")


def test_a_missing_part_is_refused(small, emptied):
    parts = {name: it for name, it in parts_of(small).items() if name != SITE}

    refused(packed(parts), f"not what its manifest names: {SITE}")


def test_columns_of_another_version_are_refused(small, emptied):
    parts = parts_of(small)
    tables = manifest_of(parts)["tables"]
    tables["people.Site"]["columns"].append("motto")

    refused(packed(with_manifest(parts, tables=tables)), "other columns.*people.Site")


def test_a_table_that_is_missing_is_refused(small, emptied):
    parts = parts_of(small)
    tables = manifest_of(parts)["tables"]
    del tables["people.Site"]

    refused(packed(with_manifest(parts, tables=tables)), "other columns.*people.Site")


UNFIT = [
    *("files/../../etc/passwd", "/etc/passwd", "files//x", "files/./x", "files/.."),
    *("files/C:\\x", "files/..\\x", "C:/x", "files/a\x00b", "files/\n.pdf"),
    *("files/x ", "files/", "../files/x"),
]


@pytest.mark.parametrize("name", UNFIT)
def test_a_name_that_could_lead_out_of_its_folder_is_refused(name):
    with pytest.raises(WrongMove, match="outside its folder"):
        check_name(name)


@pytest.mark.parametrize("name", ["files/certificates/2026/Q1-C-2026-00001-0.pdf"])
def test_a_plain_name_is_taken(name):
    check_name(name)


def test_an_archive_with_such_a_name_restores_nothing(small, emptied):
    parts = renamed(parts_of(small), "files/papers/one.txt", "files/../one.txt")

    refused(packed(parts), "outside its folder")

    assert untouched()
    assert not (emptied.parent / "one.txt").exists()


def test_an_altered_entry_breaks_the_chain(small, emptied):
    parts = parts_of(small)
    other = parts["entries.jsonl"].replace(b"Quernstone", b"Quernstine", 1)

    refused(packed(altered(parts, "entries.jsonl", other)), "does not follow")

    assert untouched()


def test_an_entry_left_out_breaks_the_chain(small, emptied):
    parts = parts_of(small)
    lines = parts["entries.jsonl"].splitlines(keepends=True)
    other = b"".join(lines[:3] + lines[4:])

    refused(packed(altered(parts, "entries.jsonl", other)), "Entry 4 .*does not follow")


def test_a_record_that_ends_earlier_than_the_manifest_says_is_refused(small, emptied):
    parts = parts_of(small)
    lines = parts["entries.jsonl"].splitlines(keepends=True)

    refused(
        packed(altered(parts, "entries.jsonl", b"".join(lines[:-1]))),
        "not where the manifest says",
    )


def test_rows_fewer_than_the_manifest_says_are_refused(small, emptied):
    name = "tables/people.RoleGiven.jsonl"
    parts = parts_of(small)
    lines = parts[name].splitlines(keepends=True)

    refused(packed(altered(parts, name, b"".join(lines[1:]))), "rows, not")

    assert untouched()


@pytest.mark.parametrize("line", [b"{", b"[]\n", b'"x"\n', b"\xff\n"])
def test_a_line_that_cannot_be_read_is_named(small, emptied, line):
    parts = altered(parts_of(small), SITE, line)

    refused(packed(parts), f"Line 1 of {SITE} cannot be read")


def test_a_row_that_lacks_a_column_is_refused(small, emptied):
    parts = altered(parts_of(small), SITE, b'{"id": 1}\n')

    refused(packed(parts), f"A row of {SITE} cannot be read")


def test_a_link_that_leads_nowhere_is_refused(small, emptied):
    name = "tables/people.RoleGiven.jsonl"
    parts = parts_of(small)
    lines = [json.loads(line) for line in parts[name].splitlines()]
    lines[0]["person_id"] = 999_999
    other = b"".join(json.dumps(line).encode() + b"\n" for line in lines)

    refused(packed(altered(parts, name, other)), "The database refuses a row")

    assert untouched()


def test_a_missing_signature_is_found_by_the_verification(small, emptied):
    name = "tables/record.Signature.jsonl"
    parts = parts_of(small)
    lines = [json.loads(line) for line in parts[name].splitlines()]
    lines[0]["printed_name"] = "Somebody Else"
    other = b"".join(json.dumps(line).encode() + b"\n" for line in lines)

    refused(packed(altered(parts, name, other)), "does not hold: signature")

    assert untouched()


def test_a_known_head_is_compared(small, emptied):
    head = chain.FIRST_HEAD[:8]

    refused(
        io.BytesIO(small), "Entry 3 of the archive has not the head", known=(3, head)
    )
    refused(io.BytesIO(small), "has not the head", known=(9_999, head))

    assert untouched()


def test_a_record_with_the_known_head_is_restored(small, emptied):
    lines = parts_of(small)["entries.jsonl"].splitlines()
    third = json.loads(lines[2])["hash"]

    restore(io.BytesIO(small), known=(3, third[:8]))

    assert Entry.objects.get(seq=3).hash == third


def test_a_stored_file_of_the_same_name_is_not_overwritten(small, emptied):
    default_storage.save("papers/one.txt", ContentFile(b"another"))

    refused(io.BytesIO(small), "holds a file papers/one.txt already")

    assert not Entry.objects.exists()
    with default_storage.open("papers/one.txt") as file:
        assert file.read() == b"another"


def test_files_kept_by_a_restoring_that_fails_go_again(small, emptied, monkeypatch):
    monkeypatch.setattr(
        "lims.record.archive.restoring.verify",
        lambda: type("Report", (), {"first_wrong": "a fault of this test"}),
    )

    refused(io.BytesIO(small), "a fault of this test")

    assert untouched()


def test_nothing_is_archived_where_nothing_is_recorded(emptied):
    assert manifest_of(parts_of(archive_bytes()))["entries"] == 0
