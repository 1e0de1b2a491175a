"""Day and time in one cell."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.forms.moments import MomentRefused, parted, read_time


@pytest.mark.parametrize(
    ("text", "day", "time"),
    [
        ("2026-03-05 07:40", "2026-03-05", "07:40"),
        ("2026-03-05T07:40:12", "2026-03-05", "07:40:12"),
        ("05.03.2026 07:40", "05.03.2026", "07:40"),
        ("5.3.2026, 7:40", "5.3.2026", "7:40"),
        ("3/5/2026 7:40 pm", "3/5/2026", "7:40 pm"),
        ("5 March 2026 7:40", "5 March 2026", "7:40"),
        ("2026-03-05", "2026-03-05", ""),
        ("yesterday", "yesterday", ""),
    ],
)
def test_a_text_is_parted_into_day_and_time(text, day, time):
    assert parted(text) == (day, time)


@pytest.mark.parametrize(
    ("text", "time"),
    [
        ("7:40", "07:40:00"),
        ("07:40:12", "07:40:12"),
        ("7.40", "07:40:00"),
        ("7:40 pm", "19:40:00"),
        ("12:05 am", "00:05:00"),
        ("12:05 PM", "12:05:00"),
        ("07:40:12.500", "07:40:12.5"),
        ("07:40 Uhr", "07:40:00"),
    ],
)
def test_a_time_is_read_however_it_is_written(text, time):
    assert read_time(text) == time


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("24:10", "write it like 07:40"),
        ("07:60", "write it like 07:40"),
        ("13:05 pm", "write it like 07:40"),
        ("morning", "write it like 07:40"),
        ("07:40Z", "names a time zone"),
        ("07:40+01:00", "names a time zone"),
    ],
)
def test_what_is_no_time_is_refused(text, sentence):
    with pytest.raises(MomentRefused, match=sentence):
        read_time(text)


@given(st.times())
def test_every_time_that_is_written_plainly_is_read_back(time):
    read = read_time(time.isoformat())

    assert dt.time.fromisoformat(read) == time
