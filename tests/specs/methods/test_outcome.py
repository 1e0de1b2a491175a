import pytest

from specs.methods.outcome import (
    Bar,
    Condition,
    Outcome,
    Parameter,
    ParametersRefused,
    Slot,
    implausible,
    setting,
    unanswered,
)
from specs.numbers import read
from tests.specs.methods.bench import at, given

VALUE = read("280")


def test_an_outcome_counts_only_when_complete_accepted_unbarred_and_with_a_result():
    bar = Bar("temperature", "Too warm.", "Cool it.")

    assert Outcome(complete=True, accepted=True, value=VALUE).can_count
    assert Outcome(complete=True, accepted=True, mark="1a").can_count
    assert not Outcome(complete=True, accepted=True).can_count
    assert not Outcome(complete=False, accepted=True, value=VALUE).can_count
    assert not Outcome(complete=True, accepted=False, value=VALUE).can_count
    assert not Outcome(complete=True, accepted=True, value=VALUE, bars=(bar,)).can_count


@pytest.mark.parametrize(
    ("text", "is_questioned"),
    [("85", False), ("500", False), ("84.9", True), ("500.1", True), ("none", False)],
)
def test_a_reading_outside_the_plausible_is_questioned(text, is_questioned):
    slot = Slot("cone_1", "Cone reading 1", "0.1 mm", plausible=("85", "500"))

    questions = implausible(given({"cone_1": text}), (slot,))

    assert bool(questions) is is_questioned


def test_a_slot_without_bounds_is_never_questioned():
    assert implausible(given({"a": "1"}), (Slot("a", "A"),)) == ()


@pytest.mark.parametrize(
    ("condition", "answer", "is_answered"),
    [
        (Condition("a", "A", "number"), read("25"), True),
        (Condition("a", "A", "number"), "25", False),
        (Condition("a", "A", "number", default="60"), "", True),
        (Condition("a", "A", "time"), at("2026-03-05 09:00"), True),
        (Condition("a", "A", "time"), "09:00", False),
        (Condition("a", "A", "instrument"), "PEN-01", True),
        (Condition("a", "A", "instrument"), " ", False),
        (Condition("a", "A", "choice", choices=("kPa",)), "kPa", True),
        (Condition("a", "A", "choice", choices=("kPa",)), "atm", False),
        (Condition("a", "A", "choice", choices=("kPa",), default="kPa"), "", True),
        (Condition("a", "A", "number", required=False), "", True),
    ],
)
def test_a_required_condition_without_a_usable_answer_is_asked_for(
    condition, answer, is_answered
):
    asks = unanswered(given({}, conditions={"a": answer}), (condition,))

    assert asks == (() if is_answered else ("A is still to be given.",))


def test_a_setting_is_its_default_until_it_is_set():
    strokes = Parameter("strokes", "Double strokes", "60", ("0", "60"))

    assert setting({}, strokes) == "60"
    assert setting({"strokes": " "}, strokes) == "60"
    assert setting({"strokes": "0"}, strokes) == "0"
    with pytest.raises(ParametersRefused, match="choose one of 0, 60"):
        setting({"strokes": "61"}, strokes)
