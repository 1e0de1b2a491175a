import pytest

from specs.methods.outcome import ParametersRefused, setting
from specs.methods.penetration import conditions, slots
from specs.methods.resting import REST
from specs.numbers import read
from tests.specs.methods.bench import at, bar_keys, carried_out, cones

UNDISTURBED = {"strokes": "100000", "rest": "24"}
REWORKED = {**UNDISTURBED, "reworked": "60"}
BEGAN = "2026-03-05 09:00"


def rested(when, texts=("295", "297", "296"), settings=UNDISTURBED, **more):
    given_conditions = {
        "worker": "W-2",
        "started_at": at(BEGAN),
        "penetrometer": "PEN-01",
        "temperature": read("25.0"),
        **more,
    }
    return carried_out(
        "cone penetration",
        cones(*texts),
        now=when,
        conditions={key: it for key, it in given_conditions.items() if it is not None},
        **settings,
    )


def keys(parameters):
    return [condition.key for condition in conditions(parameters)]


def test_a_rest_asks_when_the_strokes_ended():
    assert keys(UNDISTURBED) == ["worker", "started_at", "penetrometer", "temperature"]
    assert keys(REWORKED) == [
        "worker",
        "started_at",
        "strokes_end",
        "penetrometer",
        "temperature",
    ]


def test_an_undisturbed_rest_is_read_in_three_cups():
    labels = [slot.label for slot in slots(UNDISTURBED)]

    assert labels == [
        "Cone reading 1, cup 1",
        "Cone reading 2, cup 2",
        "Cone reading 3, cup 3",
    ]
    assert next(slot.label for slot in slots(REWORKED)) == "Cone reading 1"


def test_cups_read_after_a_day_count():
    outcome = rested("2026-03-06 09:10")

    assert outcome.reported.canonical == "296"
    assert outcome.can_count
    assert outcome.asks == ()


@pytest.mark.parametrize(
    ("when", "bars"), [("2026-03-06 09:00", []), ("2026-03-06 08:59:59", ["rest"])]
)
def test_the_rest_is_over_to_the_second(when, bars):
    assert bar_keys(rested(when)) == bars


def test_a_cup_read_too_early_is_stored_and_barred():
    outcome = rested("2026-03-06 07:10")

    assert outcome.reported.canonical == "296"
    assert not outcome.can_count
    assert outcome.bars[0].sentence == (
        "Stored, cannot count: rested 22 h 10 min of 24 h; "
        "the rest ends Fri 6 March 09:00."
    )


def test_the_earliest_cup_decides():
    times = {
        "cone_1": "2026-03-06 09:05",
        "cone_2": "2026-03-06 08:30",
        "cone_3": "2026-03-06 09:06",
    }

    outcome = carried_out(
        "cone penetration",
        cones("295", "297", "296"),
        now="2026-03-06 10:00",
        times=times,
        conditions={"started_at": at(BEGAN)},
        **UNDISTURBED,
    )

    assert "rested 23 h 30 min of 24 h" in outcome.bars[0].sentence


def test_a_cup_read_before_the_rest_began_names_the_wrong_time():
    (bar,) = rested("2026-03-05 08:30").bars

    assert "it was read 30 min before the rest began" in bar.sentence
    assert bar.advice == "Correct the time that is wrong."


@pytest.mark.parametrize(
    ("when", "is_asked"), [("2026-03-06 11:24", False), ("2026-03-06 11:24:01", True)]
)
def test_a_rest_longer_by_more_than_a_tenth_is_questioned(when, is_asked):
    outcome = rested(when)

    assert outcome.can_count
    assert bool(outcome.asks) is is_asked
    if is_asked:
        assert "rested 26 h 24 min instead of 24 h" in outcome.asks[0]


def test_the_start_of_the_rest_is_asked_for():
    outcome = rested("2026-03-06 09:10", started_at=None)

    assert not outcome.complete
    assert outcome.asks == ("Strokes ended and the rest began is still to be given.",)


def test_working_again_is_read_at_once_after_its_60_strokes():
    texts = ("308", "310", "309")
    after = {"strokes_end": at("2026-03-06 09:04")}

    outcome = rested("2026-03-06 09:05", texts, REWORKED, **after)

    assert outcome.reported.canonical == "309"
    assert outcome.can_count
    late = rested("2026-03-06 09:07:01", texts, REWORKED, **after)
    assert bar_keys(late) == ["strokes_end"]


@pytest.mark.parametrize(
    ("ended", "bars"), [("2026-03-06 09:00", []), ("2026-03-06 08:59:59", ["rest"])]
)
def test_before_working_again_the_rest_is_over_too(ended, bars):
    outcome = rested("2026-03-06 09:01", settings=REWORKED, strokes_end=at(ended))

    assert bar_keys(outcome) == bars


def test_strokes_that_ended_before_the_rest_began_name_the_wrong_time():
    outcome = rested(
        "2026-03-06 09:01", settings=REWORKED, strokes_end=at("2026-03-05 08:50")
    )

    assert (
        "the 60 strokes ended 10 min before the rest began" in outcome.bars[0].sentence
    )


def test_the_spread_after_a_rest_has_the_limit_of_the_strokes():
    assert rested("2026-03-06 09:10", ("290", "300", "295")).accepted
    assert not rested("2026-03-06 09:10", ("290", "300.5", "295")).accepted


def test_hours_may_have_a_part():
    half = {"strokes": "60", "rest": "0,5"}

    assert bar_keys(rested("2026-03-05 09:29:59", settings=half)) == ["rest"]
    assert bar_keys(rested("2026-03-05 09:30", settings=half)) == []


def test_nothing_read_is_not_yet_too_early():
    outcome = rested("2026-03-05 10:00", ())

    assert (outcome.bars, outcome.complete) == ((), False)


@pytest.mark.parametrize("hours", ["0", "-1", ">24", "a day"])
def test_a_rest_of_no_length_is_refused(hours):
    with pytest.raises(ParametersRefused, match="Hours of rest after the strokes"):
        setting({"rest": hours}, REST)


def test_a_rest_without_strokes_is_refused():
    with pytest.raises(ParametersRefused, match="A rest of 24 h follows strokes"):
        conditions({"strokes": "0", "rest": "24"})


@pytest.mark.parametrize("reworked", ["no", "60"])
def test_without_a_rest_all_is_as_it_was(reworked):
    plain = {"strokes": "100000"}

    assert keys({**plain, "reworked": reworked}) == keys(plain)
    assert slots({**plain, "reworked": reworked}) == slots(plain)
