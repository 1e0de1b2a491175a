"""Times of a logger in any form; clocks that jump and gaps: each told, none mended unseen."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.forms.log_checking import minutes_of
from specs.tables.forms.log_times import in_words
from specs.tables.forms.logs import unit_of_time
from tests.specs.tables.forms.logged import keys, looked, minutes, pressure


@pytest.mark.parametrize(
    ("heading", "times", "expected"),
    [
        ("Time (min)", ("0", "1", "2,5"), ["0", "1", "2.5"]),
        ("t in s", ("0", "30", "45"), ["0", "0.5", "0.75"]),
        ("Elapsed hours", ("1", "1.5", "3"), ["0", "30", "120"]),
        ("Zeit/Stunden", ("0", "1", "2"), ["0", "60", "120"]),
        ("Time", ("07:40", "07:41", "07:43"), ["0", "1", "3"]),
        ("Time", ("23:59:30", "00:00:30", "00:02:00"), ["0", "1", "2.5"]),
        ("Time", ("99:59:00", "100:00:00", "100:02:00"), ["0", "1", "3"]),
        ("Time", ("2026-03-02 07:40:00", "2026-03-02 07:41:00", "2026-03-02 07:41:30"), ["0", "1", "1.5"]),
        ("Time", ("02.03.2026 07:40", "02.03.2026 07:41", "02.03.2026 07:45"), ["0", "1", "5"]),
        ("Time", ("2026-03-02T07:40:00.250", "2026-03-02T07:40:00.500", "2026-03-02T07:40:01"), ["0", "0.00417", "0.0125"]),
    ],
)  # fmt: skip
def test_times_become_minutes_since_the_first(heading, times, expected):
    it = pressure(*times, heads=(heading, "P"))

    assert it.is_ready
    assert minutes(it) == expected


def test_a_number_without_a_unit_is_asked_about_with_what_it_would_mean():
    it = pressure("0", "30", "60")

    (question,) = it.questions
    assert question.key == "A/time unit"
    assert [(one.key, one.makes) for one in question.choices] == [
        ("s", "the log lasts 60 s"),
        ("min", "the log lasts 60 min"),
        ("h", "the log lasts 60 h"),
    ]
    assert minutes(pressure("0", "30", "60", choices={"A/time unit": "s"})) == [
        "0",
        "0.5",
        "1",
    ]


def test_days_that_a_workbook_counts_are_proposed_as_such():
    times = ("46083.5", "46083.50069444444", "46083.5013888889")
    (question,) = pressure(*times).questions
    assert question.proposed == "serial"

    it = pressure(*times, choices={"A/time unit": "serial"})
    assert minutes(it) == ["0", "1", "2"]
    assert it.rows[0].values["started_at"] == "2026-03-02 12:00:00"


def test_a_day_in_a_column_of_its_own_goes_with_the_clock():
    it = looked(
        ("Day", "Time", "P"),
        ("02.03.2026", "23:59", "758"),
        ("03.03.2026", "00:01", "757"),
        units={"C": "kPa"},
        choices={"C/subject": "heading"},
    )

    assert it.is_ready
    assert minutes(it, "B") == ["0", "2"]
    assert it.rows[0].values["started_at"] == "2026-03-02 23:59:00"


def test_a_head_that_comes_again_and_its_units_are_no_readings():
    it = looked(
        ("Time", "P"),
        ("min", "kPa"),
        ("0", "758"),
        ("Time", "P"),
        ("min", "kPa"),
        ("1", "757"),
        units={"A": "min", "B": "kPa"},
        units_row=2,
    )

    assert [role.value for role in it.roles] == ["data", "head", "units", "data"]
    assert minutes(it) == ["0", "1"]


def test_an_export_that_was_written_twice_counts_once():
    it = pressure("0", "1", "2", heads=("Time (min)", "P"))
    twice = looked(
        ("Time (min)", "P"),
        *[(str(t), str(758 - t)) for t in (0, 1, 2, 0, 1, 2, 3)],
        units={"B": "kPa"},
    )

    assert it.is_ready
    assert twice.is_ready
    assert minutes(twice) == ["0", "1", "2", "3"]
    assert twice.joined == {5: 2, 6: 3, 7: 4}


CLOCK_BACK = ("02:58", "02:59", "02:00", "02:01", "02:02")


def test_a_clock_that_was_set_back_an_hour_is_asked_about():
    it = pressure(*CLOCK_BACK)

    (question,) = it.questions
    assert question.key == "A/clock goes back"
    assert question.proposed == "an hour"
    assert "once, first in row 4 by 59 min" in question.sentence
    shifted = pressure(*CLOCK_BACK, choices={"A/clock goes back": "an hour"})
    assert minutes(shifted) == ["0", "1", "2", "3", "4"]


def test_or_what_does_not_follow_is_left_out():
    it = pressure(*CLOCK_BACK, "03:00", choices={"A/clock goes back": "later"})

    assert minutes(it) == ["0", "1", "2"]
    assert list(it.held) == [4, 5, 6]


def test_a_jump_that_is_no_hour_offers_none():
    (question,) = pressure("10:00", "10:01", "09:20", "09:21").questions

    assert [one.key for one in question.choices] == ["later"]


def test_a_gap_is_told_before_anything_is_taken():
    times = [str(it) for it in (0, 1, 2, 3, 200, 201, 202)]
    it = pressure(*times, heads=("Time (min)", "P"))

    (question,) = it.questions
    assert question.key == "A/gap"
    assert "There is one gap" in question.sentence
    assert "longest 3 h 17 min; usually they are 60 s apart" in question.sentence
    assert [one.key for one in question.choices] == ["take"]
    taken = pressure(*times, heads=("Time (min)", "P"), choices={"A/gap": "take"})
    assert minutes(taken)[4] == "200"
    assert "after a gap" in taken.at("A", 6).rule


def test_a_clock_that_was_set_forward_can_be_mended():
    times = ("01:58", "01:59", "03:00", "03:01")
    (question,) = pressure(*times).questions
    assert [one.key for one in question.choices] == ["take", "an hour"]

    it = pressure(*times, choices={"A/gap": "an hour"})
    assert minutes(it) == ["0", "1", "2", "3"]


@given(st.lists(st.integers(0, 10**13), min_size=2, unique=True).map(sorted))
def test_minutes_keep_the_order_of_whole_milliseconds(moments):
    told = [minutes_of(it * 1000) for it in moments]

    assert sorted(told, key=float) == told
    assert len(set(told)) == len(told)


@pytest.mark.parametrize(
    ("span", "words"),
    [(0, "0 s"), (119, "119 s"), (120, "2 min"), (7200, "2 h"), (11520, "3 h 12 min")],
)
def test_spans_in_words(span, words):
    assert in_words(span * 1_000_000) == words


@pytest.mark.parametrize(
    ("text", "unit"),
    [("t/min", "min"), ("[s]", "s"), ("Zeit (Std)", "h"), ("Pressure", ""), ("", "")],
)
def test_units_of_time(text, unit):
    assert unit_of_time(text) == unit


def test_a_time_that_cannot_be_read_among_clock_times_is_asked_about():
    it = pressure("07:40", "noon", "07:42")

    assert keys(it) == ["A/no time"]
    assert it.at("A", 3).fate == "refused"
    written = pressure("07:40", "noon", "07:42", instead={"A3": "07:41"})
    assert minutes(written) == ["0", "1", "2"]


def test_a_day_that_is_none_is_asked_about_as_a_day():
    it = pressure("2026-03-02 07:40", "2026-02-30 07:41", "2026-03-02 07:42")

    assert keys(it) == ["A/no such day"]
    left = pressure(
        "2026-03-02 07:40",
        "2026-02-30 07:41",
        "2026-03-02 07:42",
        choices={"A/no such day": "leave"},
    )
    assert left.is_ready
    assert minutes(left) == ["0", "2"]


def test_a_typed_day_without_a_clock_is_its_midnight():
    it = pressure(dt.date(2026, 3, 2), dt.date(2026, 3, 3), dt.date(2026, 3, 4))

    assert minutes(it) == ["0", "1440", "2880"]


def test_a_clock_beside_a_day_that_is_none_is_asked_about():
    it = looked(
        ("Day", "Time", "P"),
        ("02.03.2026", "23:59", "758"),
        ("02.03.2026", "late", "757"),
        ("", "23:59", "757"),
        units={"C": "kPa"},
        choices={"C/subject": "heading"},
    )

    assert keys(it) == ["B/no time"]
    assert it.questions[0].cells == ("B3", "B4")


def test_a_day_column_that_is_empty_does_not_matter():
    it = looked(
        ("Day", "Time (min)", "P"),
        ("", "0", "758"),
        ("", "1", "757"),
        units={"C": "kPa"},
        choices={"C/subject": "heading"},
    )

    assert minutes(it, "B") == ["0", "1"]


def test_two_readings_at_one_time_are_asked_about():
    it = looked(
        ("Time (min)", "P"),
        ("0", "758"),
        ("1", "757"),
        ("1", "750"),
        ("2", "756"),
        units={"B": "kPa"},
    )

    assert keys(it) == ["A/clock goes back"]
    assert "once, first in row 4 by 0 s" in it.questions[0].sentence


def test_steps_of_ten_times_the_usual_are_no_gap_yet():
    heads = ("Time (min)", "P")

    assert pressure("0", "1", "2", "12", heads=heads).is_ready
    assert keys(pressure("0", "1", "2", "12.1", heads=heads)) == ["A/gap"]
