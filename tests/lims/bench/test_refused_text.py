"""What cannot be kept is told in a short sentence: foreign instruments, signs that cannot be shown, long reasons, impossible years."""

import datetime as dt

import pytest

from lims.bench.actions import entering
from lims.bench.models import Determination, Reading
from lims.record.models import Entry
from lims.record.refusals import BadInput
from tests.factories import plant
from tests.lims.bench.test_entering_readings import WORKED, note, read


def test_an_instrument_of_another_kind_is_told(tech_a):
    with pytest.raises(BadInput) as refusal:
        note(tech_a, "penetrometer", "TH-14")

    assert refusal.value.sentence == (
        "TH-14 is a dropping point apparatus; here a penetrometer is asked for."
    )


def test_an_instrument_kind_that_begins_with_a_vowel_is_told_with_an(tech_a):
    with pytest.raises(BadInput, match="OX-1 is an oxygen vessel; here a"):
        note(tech_a, "penetrometer", "ox-1")


@pytest.mark.parametrize(
    ("slot", "code"), [("cone_1", WORKED), ("finding", "appearance")]
)
def test_what_is_quoted_of_a_long_text_is_bounded(tech_a, slot, code):
    long = "x" * 5000

    with pytest.raises(BadInput) as refusal:
        read(tech_a, slot, long, code)

    assert len(refusal.value.sentence) < 200
    assert Entry.objects.order_by("seq").last().note.count("x") < 300


@pytest.mark.parametrize("text", ["28\x000", "28\x070", "28\ud8000"])
def test_a_control_character_is_told_and_the_text_kept_without_it(tech_a, text):
    with pytest.raises(BadInput, match="signs that cannot be shown"):
        read(tech_a, "cone_1", text)

    last = Entry.objects.order_by("seq").last()
    assert last.note.startswith("cone_1: “280” is no value.")
    assert not Reading.objects.exists()


def test_control_characters_alone_leave_nothing_to_keep(tech_a):
    before = Entry.objects.count()

    with pytest.raises(BadInput):
        read(tech_a, "cone_1", "\x00")

    assert Entry.objects.count() == before


@pytest.mark.parametrize(
    ("reason", "told"),
    [
        ("r" * 301, "Write the reason in at most 300 characters."),
        ("read\x00again", "signs that cannot be shown"),
    ],
)
def test_a_reason_that_cannot_be_kept_is_told(tech_a, reason, told):
    read(tech_a, "cone_1", "297")
    note(tech_a, "temperature", "25.1")
    begun = Determination.objects.get(test=plant.the_test(WORKED))

    with pytest.raises(BadInput, match=told):
        read(tech_a, "cone_1", "279", reason=reason)
    with pytest.raises(BadInput, match=told):
        note(tech_a, "temperature", "25.2", reason=reason)
    with pytest.raises(BadInput, match=told):
        entering.set_aside(determination=begun, reason=reason, by=tech_a)


def test_a_reason_of_three_hundred_characters_is_kept_whole(tech_a):
    read(tech_a, "cone_1", "297")

    read(tech_a, "cone_1", "279", reason="r" * 300)

    assert Reading.objects.get(text="279").reason == "r" * 300


def test_a_number_with_more_noughts_than_can_be_kept_is_told(tech_a):
    with pytest.raises(BadInput, match="fewer noughts"):
        read(tech_a, "cone_1", "." + "0" * 39)


@pytest.mark.parametrize(
    "day", ["0001-01-01", "1989-12-31", "2101-01-01", "9999-12-31"]
)
def test_a_year_that_cannot_be_right_is_told(tech_a, day):
    with pytest.raises(BadInput, match="cannot be right"):
        note(tech_a, "strokes_end", f"{day} 00:00:00")
    with pytest.raises(BadInput, match="cannot be right"):
        read(tech_a, "cone_1", "279", read_at=plant.at(f"{day} 00:00"))


def test_a_time_is_written_with_the_figures_nought_to_nine(tech_a):
    with pytest.raises(BadInput, match="is no time"):
        note(tech_a, "strokes_end", "٠٨:٥٢:١٠")


def test_a_reading_of_an_hour_that_is_to_come_is_told(tech_a):
    with pytest.raises(BadInput, match="in the future"):
        read(
            tech_a,
            "cone_1",
            "279",
            read_at=plant.at("2026-03-05 08:53") + dt.timedelta(hours=1),
        )


def test_degrees_fahrenheit_are_refused_and_what_they_would_be_is_told(tech_a):
    with pytest.raises(BadInput) as refusal:
        entering.record_condition(
            test=plant.the_test(WORKED), key="temperature", text="77 °F", by=tech_a
        )

    assert refusal.value.sentence == (
        "“77 °F” is 25 °C: this box takes °C; if that is what you read, type 25."
    )


@pytest.mark.parametrize("text", ["388F", "388 °F"])
def test_degrees_fahrenheit_are_never_converted_by_themselves(tech_a, text):
    with pytest.raises(BadInput) as refusal:
        read(tech_a, "observed_1", text, "dropping-point-block")

    assert "197.78" in refusal.value.sentence
    assert not Reading.objects.exists()


def test_a_condition_in_degrees_fahrenheit_is_told_what_it_would_be(tech_a):
    with pytest.raises(BadInput, match="25"):
        note(tech_a, "temperature", "77 °F")

    assert not Determination.objects.exists()
