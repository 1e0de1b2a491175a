import pytest

from specs.methods.rolling import slots
from specs.numbers import read
from tests.specs.methods.bench import at, bar_keys, carried_out

CONDITIONS = {
    "penetrometer": "PEN-01",
    "temperature": read("25"),
    "roller": "ROLL-1",
    "rolling_started": at("2026-03-05 06:00"),
    "rolling_ended": at("2026-03-05 08:00"),
    "room": read("23"),
}


def rolled(before=("275", "275", "275"), after=("305", "305", "305"), **more):
    scale = more.pop("scale", "full")
    times = more.pop("times", None)
    readings = {f"before_{it}": text for it, text in enumerate(before, 1)}
    readings |= {f"after_{it}": text for it, text in enumerate(after, 1)}
    conditions = {
        key: it for key, it in {**CONDITIONS, **more}.items() if it is not None
    }
    return carried_out(
        "roll stability", readings, times=times, conditions=conditions, scale=scale
    )


@pytest.mark.parametrize(
    ("before", "after", "text", "canonical"),
    [
        (("275",) * 3, ("305",) * 3, "+30", "30"),
        (("275",) * 3, ("260",) * 3, "-15", "-15"),
        (("275",) * 3, ("275",) * 3, "0", "0"),
        (("275", "275", "276"), ("305", "306", "306"), "+30", "30"),
        (("275",) * 3, ("275.5",) * 3, "0", "0"),
        (("275",) * 3, ("276.5",) * 3, "+2", "2"),
    ],
)
def test_the_change_is_signed_and_rounded_once(before, after, text, canonical):
    outcome = rolled(before, after)

    assert outcome.reported.text == text
    assert outcome.reported.canonical == canonical
    assert outcome.can_count


def test_the_change_says_where_it_came_from():
    outcome = rolled()

    assert outcome.value.canonical == "30"
    assert outcome.says == "after rolling 305 less before 275"
    assert outcome.parts == {"before": "275", "after": "305"}


def test_reduced_cones_are_converted_before_the_difference():
    outcome = rolled(("67", "67", "68"), ("75", "75", "75"), scale="quarter")

    assert outcome.parts["before"] == "276.5"
    assert outcome.parts["after"] == "305.25"
    assert outcome.value.canonical == "28.75"
    assert outcome.reported.text == "+29"
    assert outcome.parts["after_mean_on_quarter_cone"] == "75"
    assert outcome.says.endswith(
        "both to full scale by 3.75 p + 24 from the quarter cone"
    )


@pytest.mark.parametrize(
    ("before", "after"), [(("98",) * 3, ("75",) * 3), (("75",) * 3, ("98",) * 3)]
)
def test_a_reduced_cone_outside_its_range_cannot_count(before, after):
    assert bar_keys(rolled(before, after, scale="quarter")) == ["scale"]


@pytest.mark.parametrize("missing", list(CONDITIONS))
def test_each_missing_condition_is_asked_for(missing):
    outcome = rolled(**{missing: None})

    assert not outcome.complete
    assert not outcome.can_count
    assert len(outcome.asks) == 1


@pytest.mark.parametrize(
    ("started", "bars"),
    [
        ("05:55", []),
        ("05:54:59", ["rolling"]),
        ("06:05", []),
        ("06:05:01", ["rolling"]),
    ],
)
def test_rolling_lasts_two_hours_within_five_minutes(started, bars):
    outcome = rolled(rolling_started=at(f"2026-03-05 {started}"))

    assert bar_keys(outcome) == bars
    assert outcome.reported.text == "+30"


def test_the_length_of_rolling_is_told():
    (bar,) = rolled(rolling_started=at("2026-03-05 05:30")).bars
    (turned,) = rolled(rolling_started=at("2026-03-05 08:30")).bars

    assert "the rolling lasted 2 h 30 min, the method asks for 2 h" in bar.sentence
    assert "the rolling ended 30 min before it started" in turned.sentence


@pytest.mark.parametrize(
    ("room", "bars"),
    [("20", []), ("19.9", ["room"]), ("35", []), ("35.1", ["room"]), (">20", ["room"])],
)
def test_the_room_is_between_20_and_35_degrees(room, bars):
    assert bar_keys(rolled(room=read(room))) == bars


def test_grease_outside_the_temperature_window_cannot_count():
    assert bar_keys(rolled(temperature=read("26"))) == ["temperature"]


@pytest.mark.parametrize(
    ("when", "bars"), [("08:00", []), ("07:59:59", ["rolling_ended"])]
)
def test_a_cone_after_rolling_is_not_read_before_its_end(when, bars):
    times = {"after_2": f"2026-03-05 {when}", "before_1": "2026-03-05 05:50"}

    assert bar_keys(rolled(times=times)) == bars


@pytest.mark.parametrize("after", [(), ("305",), ("305", "305")])
def test_fewer_than_six_readings_give_no_value(after):
    outcome = rolled(after=after)

    assert (outcome.complete, outcome.value) == (False, None)
    assert outcome.says == f"{3 + len(after)} of 6 cone readings"


@pytest.mark.parametrize("text", [">400", "0", "-5"])
def test_a_cone_reading_is_a_plain_number_above_nought(text):
    outcome = rolled(after=("305", "305", text))

    assert "reading" in bar_keys(outcome)
    assert not outcome.can_count


def test_an_implausible_reading_is_questioned_by_its_cone():
    outcome = rolled(("67", "67", "275"), ("75", "75", "75"), scale="quarter")

    assert "Before rolling, reading on the quarter cone 3 is 275" in outcome.asks[0]


def test_readings_are_typed_before_and_then_after():
    keys = [slot.key for slot in slots({})]

    assert keys == ["before_1", "before_2", "before_3", "after_1", "after_2", "after_3"]
