"""The record on its way out: CSV that no program reckons with, and JSON lines from which the chain can be computed."""

import csv
import io
import json

import pytest
from django.urls import reverse

from lims.instruments import actions as instruments
from lims.instruments.queries import instrument
from lims.people.queries import person
from lims.record.models import Entry
from lims.screens.record import sheets
from specs import chain

CSV, LINES = (f"{reverse('record:list')}?as={form}" for form in ("csv", "jsonl"))


def text_of(response):
    return b"".join(response.streaming_content).decode()


def rows_of(response):
    return list(csv.reader(io.StringIO(text_of(response).removeprefix("\ufeff"))))[2:]


def test_the_file_has_the_entries_that_the_filter_leaves(auditor):
    rows = rows_of(auditor.get(f"{CSV}&verb=retain_kept"))

    expected = Entry.objects.filter(verb="retain_kept").values_list("seq", flat=True)
    assert [int(row[0]) for row in rows] == list(expected)


@pytest.mark.parametrize("sign", ["=", "+", "-", "@"])
def test_a_text_that_a_spreadsheet_would_reckon_with_gets_a_quote(auditor, sign):
    text = f"{sign}SUM(A1:A9) of the shelf"
    instruments.take_out_of_service(
        instrument=instrument("W-1"), reason=text, by=person("mgr-1")
    )

    cells = [cell for row in rows_of(auditor.get(CSV)) for cell in row]

    assert f"'{text}" in cells
    assert text not in cells


def test_no_cell_of_the_whole_record_begins_with_a_sign(auditor):
    rows = rows_of(auditor.get(CSV))

    assert len(rows) == Entry.objects.count()
    assert not [cell for row in rows for cell in row if cell[:1] in set("=+-@\t\r")]


def test_the_chain_can_be_computed_from_the_lines(auditor):
    lines = [json.loads(line) for line in text_of(auditor.get(LINES)).splitlines()]

    head = chain.FIRST_HEAD
    for line in reversed(lines):
        assert line["previous"] == head
        head = chain.next_head(head, line["content"])
        assert line["hash"] == head
    assert len(lines) == Entry.objects.count()


def test_there_is_no_fourth_form(auditor):
    assert auditor.get(f"{reverse('record:list')}?as=xml").status_code == 404


def test_a_longer_record_asks_no_more_queries(auditor, django_assert_max_num_queries):
    with django_assert_max_num_queries(30):
        rows_of(auditor.get(CSV))


def test_a_text_longer_than_a_cell_is_cut_and_says_so():
    whole, longer = "x" * sheets.LONGEST, "x" * (sheets.LONGEST + 1)

    assert sheets.fitting(whole) == whole
    assert sheets.fitting(longer).endswith(
        f"… {len(longer)} characters in all: the rest is in the JSON lines"
    )
    assert len(sheets.fitting(longer)) < 32_767
