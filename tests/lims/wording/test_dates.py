"""Days and times stand on the laboratory's clock, with its zone."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lims.wording import dates
from lims.wording.languages import Language

BERLIN = ZoneInfo("Europe/Berlin")
KOLKATA = ZoneInfo("Asia/Kolkata")
SAO_PAULO = ZoneInfo("America/Sao_Paulo")


@pytest.mark.parametrize(
    ("moment", "english", "german"),
    [
        (
            datetime(2026, 3, 9, 8, 40, tzinfo=UTC),
            "9 March 2026, 09:40 CET",
            "9. März 2026, 09:40 MEZ",
        ),
        (
            datetime(2026, 7, 9, 8, 40, tzinfo=UTC),
            "9 July 2026, 10:40 CEST",
            "9. Juli 2026, 10:40 MESZ",
        ),
        (
            datetime(2026, 12, 31, 23, 30, tzinfo=UTC),
            "1 January 2027, 00:30 CET",
            "1. Januar 2027, 00:30 MEZ",
        ),
    ],
)
def test_a_moment_is_told_in_the_laboratorys_time(
    moment: datetime, english: str, german: str
) -> None:
    assert dates.day_time(moment, BERLIN) == english
    assert dates.day_time(moment, BERLIN, "de") == german


def test_the_hour_that_comes_twice_in_autumn_is_told_apart_by_its_zone() -> None:
    first = datetime(2026, 10, 25, 0, 30, tzinfo=UTC)

    told = [dates.day_time(first + timedelta(hours=n), BERLIN) for n in range(2)]

    assert told == ["25 October 2026, 02:30 CEST", "25 October 2026, 02:30 CET"]


def test_the_hour_that_is_missing_in_spring_is_never_told() -> None:
    before = datetime(2026, 3, 29, 0, 59, tzinfo=UTC)

    assert dates.clock(before, BERLIN) == "01:59"
    assert dates.clock(before + timedelta(minutes=1), BERLIN) == "03:00"


@pytest.mark.parametrize(
    ("zone", "words"),
    [
        (BERLIN, "CET (UTC+1)"),
        (KOLKATA, "IST (UTC+5:30)"),
        (SAO_PAULO, "UTC−3"),
        (UTC, "UTC"),
    ],
)
def test_a_zone_is_told_by_its_letters_and_its_distance(
    zone: ZoneInfo, words: str
) -> None:
    assert dates.zone_words(datetime(2026, 1, 5, tzinfo=UTC), zone) == words


@pytest.mark.parametrize(
    ("hours", "words"),
    [
        (9, "today 20:15"),
        (37, "Sat 7 March 00:15"),
        (24 * 365, "Fri 5 March 2027 11:15"),
    ],
)
def test_a_moment_near_by_is_told_from_now(hours: int, words: str) -> None:
    now = datetime(2026, 3, 5, 10, 15, tzinfo=UTC)

    assert dates.near(now + timedelta(hours=hours), now, BERLIN) == words


def test_a_day_without_a_time_is_not_moved_by_the_zone() -> None:
    assert dates.day(date(2026, 3, 9), SAO_PAULO, weekday=True) == "Mon 9 March 2026"
    assert dates.day(date(2026, 3, 9), SAO_PAULO, "de", year=False) == "9. März"


def test_seconds_are_shown_where_strokes_are_timed() -> None:
    ended = datetime(2026, 3, 5, 10, 10, 5, tzinfo=UTC)

    assert dates.clock(ended, BERLIN, seconds=True) == "11:10:05"


@pytest.mark.parametrize(
    ("language", "first", "with_weekday", "without_year"),
    [
        ("en", "1 March 2026", "Sun 1 March 2026", "1 March"),
        ("de", "1. März 2026", "So 1. März 2026", "1. März"),
        ("fr", "1er mars 2026", "dim. 1er mars 2026", "1er mars"),
        ("es", "1 de marzo de 2026", "dom, 1 de marzo de 2026", "1 de marzo"),
        ("pl", "1 marca 2026", "niedz., 1 marca 2026", "1 marca"),
    ],
)
def test_a_day_stands_in_the_form_of_its_language(
    language: Language, first: str, with_weekday: str, without_year: str
) -> None:
    it = date(2026, 3, 1)

    assert dates.day(it, UTC, language) == first
    assert dates.day(it, UTC, language, weekday=True) == with_weekday
    assert dates.day(it, UTC, language, year=False) == without_year


MONTHS = {  # CLDR's wide format forms, from memory
    "fr": "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
    "es": "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
    "pl": "stycznia lutego marca kwietnia maja czerwca lipca sierpnia września października listopada grudnia",
}


@pytest.mark.parametrize("language", MONTHS)
@given(st.dates(min_value=date(1990, 1, 1), max_value=date(2100, 12, 31)))
def test_every_day_has_its_month_in_the_case_of_a_date(
    language: Language, it: date
) -> None:
    month = MONTHS[language].split()[it.month - 1]
    number = "1er" if (language, it.day) == ("fr", 1) else str(it.day)
    joint = " de " if language == "es" else " "

    assert dates.day(it, UTC, language) == joint.join((number, month, str(it.year)))
