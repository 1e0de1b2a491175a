"""A corrected row is a new row: it is told beside what stood in the row that it replaces."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from lims.bench.actions import entering
from lims.bench.models import Reading
from lims.people.queries import person as person_of
from lims.record import telling
from lims.record.models import Entry
from tests.factories import plant as works


@pytest.fixture
def lot(db):
    works.open_plant()
    works.play(works.periodic_pass(), works.story())
    return works.lot()


def correct(text, *, reason="read from the wrong line"):
    """The first cone reading of the lot written anew, and what its entry tells of the reading by field."""
    entering.record_reading(
        test=works.the_test("worked-penetration"),
        slot="cone_1",
        text=text,
        reason=reason,
        by=person_of("tech-b"),
    )
    last = Entry.objects.filter(verb="reading_corrected").first()
    row = str(Reading.objects.latest("pk").pk)
    return {
        each.field: (each.before, each.after)
        for each in telling.told([last])[last.seq]
        if (each.model, each.id) == ("bench.Reading", row)
    }


def test_the_old_text_stands_before_the_new_one(lot):
    assert correct("278")["text"] == ("279", "278")


def test_a_second_correction_stands_beside_the_first(lot):
    correct("278")

    found = correct("277", reason="and once more")

    assert found["text"] == ("278", "277")
    assert found["reason"] == ("read from the wrong line", "and once more")


def test_what_stayed_as_it_was_is_told_as_written_and_the_link_is_not(lot):
    found = correct("278")

    assert found["slot"] == (None, "cone_1")
    assert found["unit"] == (None, "0.1 mm")
    assert "replaces" not in found


def test_what_only_the_old_row_had_is_told_as_gone(lot, monkeypatch):
    correct("278")
    last = Entry.objects.filter(verb="reading_corrected").first()
    without_unit = [each for each in last.changes if each["field"] != "unit"]
    monkeypatch.setattr(Entry, "changes", without_unit)

    told = telling.told([last])[last.seq]

    gone = [(each.before, each.after) for each in told if each.field == "unit"]
    assert gone == [("0.1 mm", "")]


def test_three_corrections_cost_as_many_queries_as_one(lot):
    for text in ("278", "277", "276"):
        correct(text)
    entries = list(Entry.objects.filter(verb="reading_corrected"))

    assert len(entries) == 3
    assert queries_for(entries) == queries_for(entries[:1])


def queries_for(entries):
    with CaptureQueriesContext(connection) as asked:
        telling.told(entries)
    return len(asked)
