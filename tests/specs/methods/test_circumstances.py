import pytest

from specs.methods.circumstances import CircumstanceRefused, read_asked
from specs.methods.outcome import ParametersRefused, setting
from specs.methods.readings import NUMBER_AS_READ
from specs.numbers import read
from tests.specs.methods.bench import bar_keys, carried_out

WINDOW = "temperature 51 to 53, hours"


def rust_water(asked=WINDOW, **conditions):
    known = {key: read(text) for key, text in conditions.items()}
    readings = {"reading": "3.5"}
    return carried_out("number as read", readings, conditions=known, asked=asked)


def test_what_the_setting_names_is_asked_for_and_awaited():
    outcome = rust_water()

    assert not outcome.complete
    assert outcome.asks == (
        "Temperature of the test is still to be given.",
        "Length of the test is still to be given.",
    )


@pytest.mark.parametrize("temperature", ["51", "52,4", "53"])
def test_inside_the_window_a_value_counts(temperature):
    assert rust_water(temperature=temperature, hours="48").can_count


@pytest.mark.parametrize("temperature", ["50.9", "53.1", "<52"])
def test_outside_the_window_it_is_stored_and_cannot_count(temperature):
    outcome = rust_water(temperature=temperature, hours="48")

    assert bar_keys(outcome) == ["temperature"]
    assert outcome.value == read("3.5")
    assert not outcome.can_count


def test_the_bar_names_the_temperature_and_the_window():
    [bar] = rust_water(temperature="55", hours="48").bars

    assert "was 55 °C, the method asks for 51 to 53 °C" in bar.sentence


def test_without_a_window_any_number_is_recorded():
    outcome = rust_water("shear rate, temperature", shear_rate="10", temperature="-20")

    assert outcome.can_count


def test_a_window_below_nought_is_read():
    [asked] = read_asked("temperature -41 to -39")

    assert asked.window == (-41, -39)
    assert rust_water("temperature -41 to -39", temperature="-40").can_count


@pytest.mark.parametrize("temperature", ["-23", "-20", "-17.0"])
def test_at_what_the_characteristic_is_at_a_value_counts(temperature):
    assert rust_water("temperature at -20", temperature=temperature).can_count


@pytest.mark.parametrize("temperature", ["20", "-23.1", "-16.9", "<-20"])
def test_far_from_what_the_characteristic_is_at_it_cannot_count(temperature):
    outcome = rust_water("temperature at -20", temperature=temperature)

    assert bar_keys(outcome) == ["temperature"]
    assert outcome.value == read("3.5")
    assert not outcome.can_count


def test_the_bar_says_what_it_is_at_and_what_the_house_allows():
    [bar] = rust_water("temperature at 177", temperature="150").bars

    assert (
        "was 150 °C, this characteristic is at 177 °C; the house allows 3 °C more or less."
    ) in bar.sentence


def test_the_apparatus_is_asked_for_only_by_its_kind():
    [named] = NUMBER_AS_READ.conditions({"apparatus": "four-ball machine"})

    assert named.instrument_kind == "four-ball machine"
    assert not named.required
    assert NUMBER_AS_READ.conditions({}) == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("moon", "name temperature, drying"),
        ("temperature 5", "name temperature, drying"),
        ("temperature 53 to 51", "upside down"),
        ("shear rate at 10", "for temperature alone: write a window, such as 10 to 10"),
        ("temperature at", "or with what it is at such as temperature at -20"),
    ],
)
def test_a_setting_that_names_nothing_is_refused_where_it_is_set(text, words):
    [parameter] = [each for each in NUMBER_AS_READ.parameters if each.key == "asked"]

    with pytest.raises(ParametersRefused, match=words):
        setting({"asked": text}, parameter)
    with pytest.raises(CircumstanceRefused, match=words):
        read_asked(text)


def test_a_window_may_be_one_number():
    assert rust_water("temperature 52 to 52", temperature="52.0").can_count
    assert not rust_water("temperature 52 to 52", temperature="52.1").can_count
