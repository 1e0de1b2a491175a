import pytest

from specs.methods.ladder import LADDER, LadderRefused, check_load, read_ladder
from specs.methods.outcome import ParametersRefused, setting
from specs.numbers import read
from tests.specs.methods.bench import bar_keys, carried_out

WELD = read_ladder(LADDER.default)


def load(text, **parameters):
    return carried_out("load of a ladder", {"load": text}, **parameters)


@pytest.mark.parametrize("step", LADDER.default.split())
def test_every_step_of_the_ladder_is_a_result(step):
    outcome = load(step)

    assert outcome.value.canonical == outcome.reported.canonical == step
    assert outcome.can_count


@pytest.mark.parametrize("text", [">800", "<80"])
def test_beyond_the_ladder_there_is_a_bound(text):
    outcome = load(text)

    assert outcome.reported.canonical == text
    assert outcome.says == "beyond the ladder"
    assert outcome.can_count


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("230", "230 is no load of the ladder: it lies between 200 and 250"),
        ("200.5", "between 200 and 250"),
        ("801", "above the last, 800; write >800"),
        ("79", "below the first, 80; write <80"),
        (">400", "write a load of the ladder, or >800 beyond its last load"),
        ("<100", "write a load of the ladder, or <80 beyond its first load"),
    ],
)
def test_between_the_steps_there_is_no_result(typed, words):
    outcome = load(typed)

    assert bar_keys(outcome) == ["ladder"]
    assert words in outcome.bars[0].sentence
    assert outcome.value is None
    with pytest.raises(LadderRefused, match=words):
        check_load(read(typed), WELD)


def test_what_may_be_written_is_told_with_its_unit():
    outcome = load("33", ladder="30 36", unit="lbf")

    assert outcome.bars[0].advice == (
        "Write the load at which it happened. The ladder: 30, 36 lbf."
    )


def test_200_and_2000_tenths_are_one_step():
    assert load("200.0").can_count


def test_nothing_read_is_no_load():
    assert not load("").complete


def test_the_ladder_is_a_setting():
    assert load("33", ladder="30 33 36").can_count
    assert bar_keys(load("35", ladder="30 33 36")) == ["ladder"]


@pytest.mark.parametrize("text", ["80", "100 80", "80 80", "80 x"])
def test_a_ladder_rises_step_by_step(text):
    with pytest.raises(
        ParametersRefused, match=f"Loads of the ladder cannot be “{text}”"
    ):
        setting({"ladder": text}, LADDER)


def test_two_loads_make_a_ladder():
    assert load("36", ladder="30 36").can_count


def test_a_load_off_the_ladder_is_complete_when_nothing_else_is_awaited():
    assert load("230").complete
    assert not load("230", asked="temperature").complete
