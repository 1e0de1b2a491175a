import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.methods.outcome import ParametersRefused, setting
from specs.methods.readings import MEAN_OF_READINGS, one_slot, slots
from specs.numbers import read
from tests.specs.methods.bench import bar_keys, carried_out


def as_read(text, **parameters):
    return carried_out("number as read", {"reading": text}, **parameters)


def mean_of(*texts, **parameters):
    readings = {f"reading_{place}": text for place, text in enumerate(texts, 1)}
    return carried_out("mean of equal readings", readings, **parameters)


def test_a_number_is_kept_as_read_and_reported_to_its_step():
    outcome = as_read("3.46", step="0.1", unit="g")

    assert outcome.value.canonical == "3.46"
    assert outcome.reported.canonical == "3.5"
    assert outcome.can_count


def test_three_significant_digits_are_reported():
    assert as_read("95.6148", step="3 digits").reported.canonical == "95.6"


@pytest.mark.parametrize("text", ["<10", ">1000"])
def test_a_bound_stays_a_bound(text):
    outcome = as_read(text, step="100")

    assert outcome.value.canonical == outcome.reported.canonical == text
    assert outcome.can_count


def test_an_empty_place_is_no_nought():
    outcome = as_read("")

    assert (outcome.complete, outcome.value) == (False, None)


@pytest.mark.parametrize(
    ("typed", "shown"), [("4", "+4"), ("-3", "-3"), ("0", "0"), ("0.4", "0")]
)
def test_a_change_is_reported_with_its_sign(typed, shown):
    outcome = as_read(typed, sign="signed")

    assert outcome.reported.text == shown
    assert outcome.reported.canonical == shown.lstrip("+")
    assert outcome.can_count


def test_what_is_no_change_does_not_lie_below_nought():
    outcome = as_read("-3")

    assert bar_keys(outcome) == ["sign_reading"]
    assert "number as read is -3" in outcome.bars[0].sentence
    assert not outcome.can_count


def test_nought_itself_counts():
    assert as_read("0").can_count


def test_name_unit_and_range_come_from_the_settings():
    parameters = {"name": "Leakage", "unit": "g", "plausible": "0 to 30"}
    [slot] = one_slot(parameters)

    assert (slot.label, slot.unit, slot.plausible) == ("Leakage", "g", ("0", "30"))
    assert "outside 0 to 30" in as_read("31", **parameters).asks[0]


def test_the_scar_is_the_mean_of_three_balls():
    outcome = mean_of("0.52", "0.56", "0.55", step="0.01", unit="mm")

    assert outcome.reported.canonical == "0.54"
    assert outcome.says == "mean of 0.52, 0.56 and 0.55; spread 0.04"
    assert outcome.parts["reading_2"] == "0.56"
    assert outcome.can_count


def test_fretting_is_the_mean_of_two_losses_of_mass():
    outcome = mean_of("6.15", "6.40", count="2", step="0.1", unit="mg")

    assert outcome.value.canonical == "6.275"
    assert outcome.reported.canonical == "6.3"


def test_changes_of_volume_have_two_decimals_below_ten_and_one_above():
    settings = {"sign": "signed", "step": "0.01, 3 digits"}

    assert mean_of("4.01", "4.12", "4.10", **settings).reported.text == "+4.08"
    assert mean_of("14.01", "14.12", "14.10", **settings).reported.text == "+14.1"
    assert mean_of("-2.10", "-2.20", "-2.15", **settings).reported.text == "-2.15"


@given(st.lists(st.integers(1, 9999), min_size=4, max_size=4))
def test_the_order_of_the_readings_does_not_matter(numbers):
    texts = [str(number) for number in numbers]

    one = mean_of(*texts, count="4")
    other = mean_of(*reversed(texts), count="4")

    assert one.value == other.value
    assert min(numbers) <= one.value.value <= max(numbers)


def test_two_of_three_readings_are_not_enough():
    outcome = mean_of("0.52", "0.56")

    assert (outcome.complete, outcome.value) == (False, None)
    assert outcome.says == "2 of 3 readings"


def test_a_bound_is_never_averaged():
    outcome = mean_of("0.52", "<0.56", "0.55")

    assert bar_keys(outcome) == ["bound"]
    assert outcome.value is None


def test_readings_beyond_the_house_limit_are_not_accepted():
    near = mean_of("0.50", "0.55", "0.60", spread_limit="0.1")
    apart = mean_of("0.50", "0.55", "0.61", spread_limit="0.1")

    assert near.can_count
    assert not apart.accepted
    assert apart.asks[0] == (
        "Take fresh readings: these differ by 0.11, more than the house limit of 0.1."
    )


def test_each_reading_has_its_own_place():
    labels = [slot.label for slot in slots({"count": "2", "name": "Ball"})]

    assert labels == ["Ball 1", "Ball 2"]


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("plausible", "5"),
        ("plausible", "5 to 2"),
        ("plausible", "a to b"),
        ("step", "0"),
        ("spread_limit", "0"),
        ("spread_limit", ">0.1"),
        ("spread_limit", "little"),
        ("count", "1"),
        ("sign", "both"),
    ],
)
def test_a_setting_that_cannot_be_used_is_refused(key, text):
    [parameter] = [each for each in MEAN_OF_READINGS.parameters if each.key == key]

    with pytest.raises(
        ParametersRefused, match=f"{parameter.label} cannot be “{text}”"
    ):
        setting({key: text}, parameter)


def test_words_in_a_number_place_are_no_reading():
    assert not as_read("none").complete
    assert as_read("5").value == read("5")


def test_a_plausible_range_may_be_one_number():
    [parameter] = [
        each for each in MEAN_OF_READINGS.parameters if each.key == "plausible"
    ]

    assert setting({"plausible": "5 to 5"}, parameter) == "5 to 5"


def test_all_readings_taken_make_it_complete_even_where_one_is_a_bound():
    taken = mean_of("0.52", "<0.56", "0.55")
    awaited = mean_of("0.52", "<0.56", "0.55", asked="temperature")

    assert (taken.complete, awaited.complete) == (True, False)
    assert not taken.can_count
