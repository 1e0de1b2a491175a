"""The record of one thing with what lies between, and the page of one entry."""

import re
from itertools import pairwise

import pytest
from django.urls import reverse
from pytest_django.asserts import assertRedirects

from lims.instruments import actions
from lims.instruments.queries import instrument
from lims.people.queries import person
from lims.record.models import Entry
from tests.factories import plant
from tests.lims.record.refused import behind_the_triggers

LOT = reverse("record:about", args=["fill lot", "Q1-26-0417-A"])


def test_a_kind_of_two_words_stands_in_the_address_with_a_hyphen():
    assert LOT == "/record/fill-lot/Q1-26-0417-A/"


def test_entries_of_a_lot_run_from_the_first_and_nothing_else_is_among_them(auditor):
    page = auditor.get(LOT)

    shown = [int(seq) for seq in re.findall(r'id="e(\d+)"', page.content.decode())]
    own = Entry.objects.filter(about_key="Q1-26-0417-A").order_by("seq")
    assert shown == list(own.values_list("seq", flat=True))[:50]


def test_what_lies_between_is_counted(auditor):
    manager = person("mgr-1")
    actions.take_out_of_service(
        instrument=instrument("W-1"), reason="belt worn", by=manager
    )
    plant.hold(plant.lot())
    own = Entry.objects.filter(about_key="Q1-26-0417-A").order_by("seq")
    seqs = list(own.values_list("seq", flat=True))

    page = auditor.get(LOT)

    shown = [
        item
        for day in page.context["days"]
        for item in day.items
        if hasattr(item, "up_to")
    ]
    expected = [b - a - 1 for a, b in pairwise(seqs) if b - a > 1]
    assert [gap.count for gap in shown] == expected
    assert f"1 entry about another thing, {seqs[-1] - 1}" in page.content.decode()


def test_the_answer_counts_and_dates_them(auditor):
    count = Entry.objects.filter(about_key="Q1-26-0417-A").count()

    text = auditor.get(LOT).content.decode()

    assert f"{count} entries, 4 to 9 March 2026." in text
    assert reverse("batches:lot", args=["Q1-26-0417-A"]) in text


def test_the_tests_of_a_sample_are_told_under_the_sample(auditor):
    address = reverse("record:about", args=["sample", "Q1-26-0417-A-01"])

    text = auditor.get(address).content.decode()

    assert "Worked penetration of Q1-26-0417-A-01" in text
    assert "Q1-26-0310" not in text


@pytest.mark.parametrize(
    ("kind", "key", "reference"),
    [
        ("characteristic", "bleed", "methods"),
        ("method edition", "ASTM D217-21a", "methods"),
        ("published specification", "NLGI 2", "specifications"),
    ],
)
def test_what_came_with_the_reference_data_is_told_there(auditor, kind, key, reference):
    page = auditor.get(reverse("record:about", args=[kind, key]))

    told = reverse("record:about", args=["reference data", reference])
    assertRedirects(page, told)


@pytest.mark.parametrize(
    "address", ["/record/fill-lot/Q9-1/", "/record/entries/99999/"]
)
def test_what_is_not_recorded_stands_nowhere(auditor, address):
    assert auditor.get(address).status_code == 404


def test_an_entry_shows_everything_it_tells_and_the_text_that_was_hashed(auditor):
    entry = Entry.objects.filter(verb="lot_released").latest("seq")

    page = auditor.get(reverse("record:entry", args=[entry.seq]))
    text = page.content.decode()

    told = sum(len(changed.differences) for changed in page.context["changed"])
    assert told == len(entry.changes)
    assert entry.hash in text
    assert entry.previous in text
    assert "The entry is as it was written" in text


def test_an_altered_entry_says_so_on_its_own_page(auditor, works):
    entry = Entry.objects.filter(verb="retain_kept").latest("seq")
    behind_the_triggers(
        "record_entry",
        "UPDATE record_entry SET content = %s WHERE seq = %s",
        entry.content.replace("R-12-04", "R-12-05"),
        entry.seq,
    )

    text = auditor.get(reverse("record:entry", args=[entry.seq])).content.decode()

    assert "The entry is not as it was written" in text
