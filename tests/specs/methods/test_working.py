import pytest

from specs.methods.penetration import conditions
from specs.numbers import read
from tests.specs.methods.bench import at, bar_keys, carried_out, cones


def prolonged(when, **more):
    """A set read at `when`, its 60 strokes just ended, of 100 000 begun Thursday 09:00."""
    given_conditions = {
        "penetrometer": "PEN-01",
        "temperature": read("25.0"),
        "worker": "W-2",
        "started_at": at("2026-03-05 09:00"),
        "strokes_end": at(when),
        **more,
    }
    return carried_out(
        "cone penetration",
        cones("301", "303", "302"),
        now=when,
        conditions=given_conditions,
        strokes="100000",
    )


def test_a_set_after_the_nominal_end_counts_without_the_counter():
    outcome = prolonged("2026-03-06 14:30")

    assert outcome.reported.canonical == "302"
    assert outcome.can_count
    assert prolonged("2026-03-06 12:46:40").can_count


@pytest.mark.parametrize("counter", [{}, {"counter": read("100000")}])
def test_a_set_before_the_fastest_end_never_counts(counter):
    outcome = prolonged("2026-03-06 08:48", **counter)

    assert bar_keys(outcome) == ["too_early"]
    assert outcome.reported.canonical == "302"
    sentence = outcome.bars[0].sentence
    assert (
        "100\u00a0000 strokes started Thu 5 March 09:00 cannot have ended" in sentence
    )
    assert "before Fri 6 March 08:49" in sentence
    assert "23 h 49 min" in sentence


def test_between_the_fastest_and_the_nominal_end_the_counter_is_asked_for():
    outcome = prolonged("2026-03-06 08:49")

    assert bar_keys(outcome) == ["counter"]
    assert "end Fri 6 March 12:46:40" in outcome.bars[0].sentence
    assert outcome.bars[0].advice == "Give the counter reading of the worker."


@pytest.mark.parametrize("counter", ["100000", "100060", ">100000"])
def test_a_counter_that_reached_the_strokes_is_proof(counter):
    assert prolonged("2026-03-06 08:49", counter=read(counter)).can_count


@pytest.mark.parametrize("when", ["2026-03-06 08:49", "2026-03-06 14:30"])
@pytest.mark.parametrize("counter", ["99999", "<100000"])
def test_a_counter_below_the_strokes_bars_whenever_it_was_read(when, counter):
    outcome = prolonged(when, counter=read(counter))

    assert bar_keys(outcome) == ["counter"]
    assert f"the counter shows {counter} of" in outcome.bars[0].sentence


@pytest.mark.parametrize("rate", ["49.9", "70.1", ">60", "0.0001", "-60", "0"])
def test_a_rate_outside_fifty_to_seventy_bars(rate):
    outcome = prolonged("2026-03-09 14:30", strokes_per_minute=read(rate))

    assert bar_keys(outcome) == ["strokes_per_minute"]


def test_the_nominal_end_follows_the_stated_rate():
    assert prolonged("2026-03-06 08:49", strokes_per_minute=read("70")).can_count
    slow = prolonged("2026-03-06 14:30", strokes_per_minute=read("50"))
    assert bar_keys(slow) == ["counter"]
    assert "at 50 a minute end Fri 6 March 18:20" in slow.bars[0].sentence


def test_a_missing_start_is_asked_for():
    outcome = prolonged("2026-03-06 14:30", started_at="")

    assert not outcome.complete
    assert outcome.asks == ("Prolonged strokes started is still to be given.",)
    assert outcome.bars == ()


def test_after_prolonged_working_sixty_strokes_are_read_at_once():
    late = prolonged("2026-03-06 14:30", strokes_end=at("2026-03-06 14:20"))

    assert bar_keys(late) == ["strokes_end"]


def test_times_are_told_in_the_zone_of_the_reading():
    elsewhere = at("2026-03-05 09:00").astimezone(tz=None)

    outcome = prolonged("2026-03-06 08:48", started_at=elsewhere)

    assert "started Thu 5 March 09:00" in outcome.bars[0].sentence


@pytest.mark.parametrize(
    ("strokes", "keys"),
    [
        ("0", ["penetrometer", "temperature"]),
        ("60", ["penetrometer", "temperature", "strokes_end"]),
        (
            "10000",
            [
                "worker",
                "started_at",
                "strokes_per_minute",
                "counter",
                "penetrometer",
                "temperature",
                "strokes_end",
            ],
        ),
    ],
)
def test_each_kind_of_working_asks_for_its_own_circumstances(strokes, keys):
    asked = conditions({"strokes": strokes})

    assert [each.key for each in asked] == keys
    assert [each.key for each in asked if not each.required] in ([], ["counter"])
