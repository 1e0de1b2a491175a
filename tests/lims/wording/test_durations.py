"""A length of time is told in the two units that matter."""

from datetime import UTC, datetime, timedelta

import pytest

from lims.wording.durations import ahead, duration, waiting
from lims.wording.languages import Language


@pytest.mark.parametrize(
    ("length", "english", "german"),
    [
        (timedelta(seconds=59), "less than 1 min", "weniger als 1 min"),
        (timedelta(minutes=10, seconds=59), "10 min", "10 min"),
        (timedelta(hours=2), "2 h", "2 h"),
        (timedelta(hours=17, minutes=20), "17 h 20 min", "17 h 20 min"),
        (timedelta(hours=27, minutes=46), "27 h 46 min", "27 h 46 min"),
        (timedelta(days=4, hours=18), "4 days 18 h", "4 Tage 18 h"),
        (timedelta(days=2), "2 days", "2 Tage"),
        (timedelta(days=-4, hours=-18), "4 days 18 h", "4 Tage 18 h"),
    ],
)
def test_a_duration_names_its_two_largest_units(
    length: timedelta, english: str, german: str
) -> None:
    assert duration(length) == english
    assert duration(length, "de") == german


@pytest.mark.parametrize(
    ("length", "words"),
    [
        (timedelta(hours=3, minutes=59), "3 h 59 min"),
        (timedelta(hours=4, minutes=59), "4 h"),
        (timedelta(days=2, hours=23), "2 days"),
    ],
)
def test_a_long_wait_is_told_in_one_unit(length: timedelta, words: str) -> None:
    assert waiting(length) == words


@pytest.mark.parametrize(
    ("away", "english", "german"),
    [
        (timedelta(minutes=10), "in 10 min", "in 10 min"),
        (timedelta(hours=-19, minutes=-5), "19 h late", "19 h zu spät"),
        (timedelta(seconds=-30), "now", "jetzt"),
        (timedelta(days=3, hours=2), "in 3 days", "in 3 Tagen"),
    ],
)
def test_a_due_moment_is_told_as_ahead_or_late(
    away: timedelta, english: str, german: str
) -> None:
    now = datetime(2026, 3, 5, 10, 15, tzinfo=UTC)

    assert ahead(now + away, now) == english
    assert ahead(now + away, now, "de") == german


@pytest.mark.parametrize(
    ("language", "one", "three", "late"),
    [
        ("fr", "dans 2 jours", "dans 3 jours", "5 jours de retard"),
        ("es", "en 2 días", "en 3 días", "5 días de retraso"),
        ("pl", "za 2 dni", "za 3 dni", "5 dni po terminie"),
        ("de", "in 2 Tagen", "in 3 Tagen", "5 Tage zu spät"),
    ],
)
def test_days_ahead_and_late_are_told_in_the_language(
    language: Language, one: str, three: str, late: str
) -> None:
    now = datetime(2026, 3, 5, 10, 15, tzinfo=UTC)

    assert ahead(now + timedelta(days=2), now, language) == one
    assert ahead(now + timedelta(days=3, hours=2), now, language) == three
    assert ahead(now - timedelta(days=5), now, language) == late
