"""Samples to be tested from a table: of what is registered, each with the tests that it is asked for."""

import pytest

from lims.batches.models import Sample
from lims.bench.models import Test
from lims.imports import actions
from lims.people.queries import person as person_of
from lims.record.models import Entry
from lims.record.refusals import BadInput, WrongMove
from tests.factories import bringing
from tests.factories import plant as works

HEADS = ("Fill lot", "Taken from", "Detail", "Taken at", "Taken by")
DRUM_3 = ("Q1-26-0417-A", "pack", "drum 3 of 30", "2026-03-05 07:40", "Tech A")
KETTLE = ("Q1-26-0417", "Kessel", "", "2026-03-04 12:10", "")


@pytest.fixture
def technician(db):
    works.open_plant()
    works.play(works.story(tests={}), until="2026-03-05 08:53")
    return person_of("tech-a")


@pytest.fixture
def mgr(technician):
    return person_of("mgr-1")


def test_a_sample_is_received_with_its_tests(table, technician):
    entries = Entry.objects.count()
    it = table("samples", HEADS, DRUM_3, KETTLE)

    assert it.look().is_ready
    it.take_in(by=technician)

    drum = Sample.objects.get(detail="drum 3 of 30")
    kettle = Sample.objects.get(place="kettle")
    assert (drum.number, drum.counts, drum.taken_by) == (
        "Q1-26-0417-A-02",
        True,
        "Tech A",
    )
    assert drum.taken_at == works.at("2026-03-05 07:40")
    assert (kettle.number, kettle.taken_by) == ("Q1-26-0417-K-01", technician.name)
    assert list(
        Test.objects.filter(sample=kettle).values_list(
            "characteristic__code", flat=True
        )
    ) == ["worked-penetration"]
    assert Entry.objects.count() == entries + 2  # received, and taken in
    assert Entry.objects.first().note == "added: 2"


def test_one_that_is_here_is_not_received_again(table, technician):
    table("samples", HEADS, DRUM_3).take_in(by=technician)

    row = table("samples", HEADS, DRUM_3, KETTLE).take_in(
        by=technician, content=b"more"
    )

    assert (row.counts["added"], row.counts["samples here already"]) == (1, 1)


@pytest.mark.parametrize(
    "typed",
    [
        "2026-03-05 07:40",
        "05.03.2026 07:40",
        "5/3/2026 7:40",
        "2026-03-05T07:40:00",
        "46086.3194444444",
    ],
)
def test_the_time_is_read_however_it_is_written(table, technician, typed):
    cell = float(typed) if typed.startswith("460") else typed
    it = table("samples", HEADS, (*DRUM_3[:3], cell, ""))

    asked = it.asks()
    it.choices = {key: q.proposed or "day first" for key, q in asked.items()}

    assert it.look().rows[0].values["taken_at"] == "2026-03-05 07:40:00"


@pytest.mark.parametrize(
    ("row", "key", "sentence"),
    [
        (("Q1-26-0999", *DRUM_3[1:]), "A/cannot be read", "no batch or fill lot that is kept here"),
        (("Q1-26-0417", *DRUM_3[1:]), "B/does not fit", "belongs to a fill lot"),
        (("Q1-26-0417-A", *KETTLE[1:]), "B/does not fit", "belongs to the batch"),
        ((DRUM_3[0], "tanker", *DRUM_3[2:]), "B/cannot be read", "write one of kettle"),
        ((DRUM_3[0], "", *DRUM_3[2:]), "B/missing", "is missing"),
        ((*DRUM_3[:2], "x" * 61, *DRUM_3[3:]), "C/does not fit", "61 characters long"),
        ((*DRUM_3[:3], "2026-03-05", ""), "D/cannot be read", "has no time of day"),
        ((*DRUM_3[:3], "2026-03-05 25:10", ""), "D/cannot be read", "no time of day"),
        ((*DRUM_3[:3], "2026-03-05 10:10", ""), "D/does not fit", "lies in the future"),
        ((*DRUM_3[:3], "2026-03-04 10:10", ""), "D/does not fit", "before the lot was filled"),
        ((*DRUM_3[:3], "2026-03-05 07:40Z", ""), "D/cannot be read", "names a time zone"),
        ((*DRUM_3[:3], "", ""), "D/missing", "is missing"),
        ((*DRUM_3[:3], "2025-03-30 02:30", ""), "D/does not fit", "never showed"),
    ],
)  # fmt: skip
@pytest.mark.usefixtures("technician")
def test_a_sample_that_cannot_be_is_refused_with_what_to_write(
    table, row, key, sentence
):
    asked = table("samples", HEADS, row).asks()

    assert list(asked) == [key]
    assert asked[key].is_refusal
    assert sentence in asked[key].sentence


def test_in_the_hour_that_the_clock_shows_twice_it_is_asked_which(table, technician):
    it = table("samples", HEADS, ("Q1-26-0417", "kettle", "", "2025-10-26 02:30", ""))

    assert "showed this time twice" in it.asks()["D/hour twice"].sentence
    it.choices["D/hour twice"] = "second"
    it.take_in(by=technician)

    taken_at = Sample.objects.get(place="kettle").taken_at
    assert taken_at.isoformat() == "2025-10-26T01:30:00+00:00"


def test_the_same_sample_twice_in_a_file_is_asked_about(table, technician):
    it = table("samples", HEADS, DRUM_3, DRUM_3)

    assert it.asks()["A/stands twice"].proposed == "rows"
    it.choices["A/stands twice"] = "rows"
    it.take_in(by=technician)

    assert Sample.objects.filter(detail="drum 3 of 30").count() == 1


def test_a_lot_that_was_released_takes_no_sample(table, technician):
    others = works.story(number="0418", retain="R-12-05")
    works.play(works.periodic_pass(), others, until="2026-03-09 09:00")
    works.release(works.lot("0418"))
    it = table("samples", HEADS, ("Q1-26-0418-A", *DRUM_3[1:]))

    (question,) = it.asks().values()

    assert "released" in question.sentence


def test_a_lot_that_was_released_meanwhile_takes_all_back(table, technician):
    others = works.story(number="0418", retain="R-12-05")
    works.play(works.periodic_pass(), others, until="2026-03-09 09:00")
    it = table("samples", HEADS, DRUM_3, ("Q1-26-0418-A", *DRUM_3[1:]))
    looked = it.look()
    works.release(works.lot("0418"))
    row = bringing.received(by=technician, kind="samples")
    with pytest.raises((WrongMove, BadInput), match="Row 3: "):
        actions.take_in(import_of=row, tables=[looked], by=technician)

    assert not Sample.objects.filter(detail="drum 3 of 30").exists()
