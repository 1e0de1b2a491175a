"""There is one clock; a plant's is never set."""

import datetime as dt

import pytest

from lims.record import clock

NOON = dt.datetime(2026, 3, 4, 12, 0, tzinfo=dt.UTC)


def test_it_shows_the_true_time_in_utc():
    before = dt.datetime.now(dt.UTC)

    assert before <= clock.now() <= dt.datetime.now(dt.UTC)
    assert clock.now().tzinfo is dt.UTC


def test_it_stands_still_when_set():
    clock.set_to(NOON)

    assert clock.now() == NOON == clock.now()


def test_it_stands_still_inside_a_block_and_goes_on_after():
    clock.set_to(NOON)
    with clock.frozen(NOON + dt.timedelta(hours=1)):
        assert clock.now().hour == 13

    assert clock.now() == NOON


def test_it_runs_on_from_an_instant():
    clock.start_from(NOON)
    first = clock.now()

    assert NOON <= first < NOON + dt.timedelta(minutes=1)
    assert clock.now() > first


def test_another_zone_is_turned_into_utc():
    clock.set_to(NOON.astimezone(dt.timezone(dt.timedelta(hours=2))))

    assert clock.now().isoformat() == "2026-03-04T12:00:00+00:00"


def test_an_instant_without_a_zone_is_refused():
    with pytest.raises(ValueError, match="with a zone"):
        clock.set_to(NOON.replace(tzinfo=None))


def test_a_plants_clock_is_not_set(settings):
    settings.MODE = "plant"

    with pytest.raises(RuntimeError, match="not set"):
        clock.set_to(NOON)
    settings.MODE = "demo"


def test_the_demo_goes_on_where_its_clock_was(settings, tmp_path):
    settings.HOME = tmp_path / "home"
    clock.start_from(NOON)
    clock.keep_demo()
    clock.reset()

    clock.resume_demo()

    assert NOON <= clock.now() < NOON + dt.timedelta(minutes=1)


def test_a_plant_does_not_take_up_a_demos_clock(settings, tmp_path):
    settings.HOME = tmp_path
    clock.start_from(NOON)
    clock.keep_demo()
    clock.reset()
    settings.MODE = "plant"

    clock.resume_demo()

    assert clock.now().year != 2026 or clock.now() - NOON > dt.timedelta(days=1)
    settings.MODE = "demo"


def test_without_a_file_the_demos_clock_is_the_true_one(settings, tmp_path):
    settings.HOME = tmp_path
    clock.resume_demo()

    assert abs(clock.now() - dt.datetime.now(dt.UTC)) < dt.timedelta(seconds=5)
