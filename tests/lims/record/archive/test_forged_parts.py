"""An archive whose hashes were all made to fit is refused with a sentence whatever it says, and restores nothing."""

import io
import json

import pytest
from django.core.management import CommandError, call_command

from lims.record.archive import restoring
from specs import chain
from tests.lims.record.archive.conftest import manifest_of, packed, parts_of
from tests.lims.record.archive.test_refusals import (
    SITE,
    altered,
    refused,
    untouched,
    with_manifest,
)

PERSON = "tables/people.Person.jsonl"


def with_row(parts, name, **changes):
    """The first row of a table says something else."""
    first, *others = parts[name].splitlines(keepends=True)
    row = json.dumps(json.loads(first) | changes).encode() + b"\n"
    return altered(parts, name, row + b"".join(others))


def with_first_entry(parts, content):
    """The whole record is that one entry, chained and counted as it should be."""
    head = chain.next_head(chain.FIRST_HEAD, content)
    entry = {
        "seq": 1,
        "previous": chain.FIRST_HEAD,
        "content": content,
        "hash": head,
    }
    line = json.dumps(entry).encode() + b"\n"
    return with_manifest(altered(parts, "entries.jsonl", line), entries=1, head=head)


@pytest.mark.parametrize("content", ["{}", "[]", "no json", '{"changes": [1]}'])
def test_an_entry_that_says_nothing_is_refused(content, small, emptied):
    refused(packed(with_first_entry(parts_of(small), content)), "Entry 1 ")

    assert untouched()


@pytest.mark.parametrize("changes", [{"is_active": "perhaps"}, {"id": "seven"}])
def test_a_value_that_its_column_does_not_know_is_refused(changes, small, emptied):
    parts = with_row(parts_of(small), PERSON, **changes)

    refused(packed(parts), f"A row of {PERSON} cannot be read")

    assert untouched()


def test_a_key_beyond_what_a_database_counts_is_refused(small, emptied):
    parts = with_row(parts_of(small), PERSON, id=10**30)

    refused(packed(parts), "The database refuses a row")

    assert untouched()


@pytest.mark.parametrize(
    "changes",
    [
        {"entries": "many"},
        {"entries": float("inf")},
        {"tables": {"people.Site": {"part": SITE, "rows": "x", "columns": []}}},
        {"tables": {"people.Site": {"part": [SITE], "rows": 1, "columns": 7}}},
        {"parts": {SITE: {"size": 1}}},
        {"parts": [SITE]},
    ],
)
def test_a_manifest_of_another_form_is_refused(changes, small, emptied):
    parts = parts_of(small)
    told = json.dumps(manifest_of(parts) | changes).encode()

    refused(packed(parts | {"manifest.json": told}), "manifest.json of this file")


def test_a_manifest_that_is_nested_without_end_is_refused(small, emptied):
    parts = parts_of(small) | {"manifest.json": b"[" * 200_000}

    refused(packed(parts), "cannot be read")


def test_a_line_without_end_is_never_held_whole(small, emptied, monkeypatch):
    parts = parts_of(small)
    longest = max(len(line) for part in parts.values() for line in part.splitlines())
    monkeypatch.setattr(restoring, "LONGEST_LINE", longest + 1)
    parts = altered(parts, SITE, b" " * (longest + 100) + b"{}\n")

    refused(packed(parts), f"Line 1 of {SITE} cannot be read")


def test_the_command_tells_it_in_a_sentence(small, emptied, tmp_path):
    file = tmp_path / "forged.zip"
    file.write_bytes(packed(with_row(parts_of(small), PERSON, id="seven")).read())

    with pytest.raises(CommandError, match="cannot be read"):
        call_command("restore", file, stdout=io.StringIO())

    assert untouched()


def telling(parts, **change):
    """The first entry tells of one more difference; the chain of all is made to fit."""
    lines = [json.loads(it) for it in parts["entries.jsonl"].splitlines()]
    content = json.loads(lines[0]["content"])
    plain = {"model": "imports.HistoryLine", "id": "1-2", "name": "2 lines"}
    told = plain | {"field": "rows", "before": None, "after": "2 rows, sha256:0"}
    content["changes"].append(told | change)
    lines[0]["content"] = chain.canonical(content).decode()
    head = chain.FIRST_HEAD
    for line in lines:
        line["previous"] = head
        head = line["hash"] = chain.next_head(head, line["content"])
    entries = b"".join(json.dumps(it).encode() + b"\n" for it in lines)
    return with_manifest(altered(parts, "entries.jsonl", entries), head=head)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({}, "2 rows of imports.HistoryLine were added, 0 are there"),
        ({"model": "imports.Nothing"}, "no such table"),
        ({"model": 7}, "no such table"),
        ({"of": "more"}, "Entry 1 of the archive does not say"),
        ({"id": "one"}, "cannot be read"),
        ({"after": "some rows"}, "cannot be read"),
        ({"after": None}, "cannot be read"),
        (
            {"id": f"1-{10**17}"},
            "2 rows of imports.HistoryLine were added, 0 are there",
        ),
        ({"id": str(10**30), "field": "name"}, "Entry 1 of the archive does not say"),
    ],
)
def test_rows_that_an_entry_only_claims_are_found(change, why, small, emptied):
    refused(packed(telling(parts_of(small), **change)), why)

    assert untouched()
