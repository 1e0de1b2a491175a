import datetime as dt

import pytest

from specs.methods.moments import duration, moment, next_minute
from tests.specs.methods.bench import at


@pytest.mark.parametrize(
    ("when", "text"),
    [
        ("2026-03-06 12:46:40", "Fri 6 March 12:46:40"),
        ("2026-03-06 08:49", "Fri 6 March 08:49"),
        ("2026-12-27 00:00", "Sun 27 December 00:00"),
    ],
)
def test_a_moment_is_written_in_words(when, text):
    assert moment(at(when)) == text


def test_a_time_is_moved_on_to_the_full_minute():
    assert next_minute(at("2026-03-06 08:48:34")) == at("2026-03-06 08:49")
    assert next_minute(at("2026-03-06 08:49")) == at("2026-03-06 08:49")


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (85740, "23 h 49 min"),
        (250, "4 min 10 s"),
        (180, "3 min"),
        (-55, "55 s"),
        (0, "0 s"),
    ],
)
def test_a_span_is_written_in_words(seconds, text):
    assert duration(dt.timedelta(seconds=seconds)) == text
