import pytest

from specs.calculations.methods import METHODS
from specs.comparing import CaseRefused
from specs.numbers import Refused

KNEE = {
    "minutes": [str(it) for it in range(12)],
    "signal": ["1", "1", "1", "1", "1", "1", "3", "5", "7", "9", "11", "13"],
    "baseline": ["0", "4"],
}


def onset_of(**changes):
    return METHODS["oxidation_onset"].function({**KNEE, **changes})["onset"]


def test_an_onset_is_read_from_two_columns():
    assert onset_of() == 5


def test_a_signal_may_have_all_the_digits_of_an_instrument():
    signal = ["1.00000000000000000000001", "1e0", *KNEE["signal"][2:]]

    assert round(onset_of(signal=signal), 5) == 5


@pytest.mark.parametrize(
    ("changes", "kind", "words"),
    [
        ({"baseline": ["0"]}, CaseRefused, "two times: from and to"),
        ({"baseline": ["0", "2", "4"]}, CaseRefused, "two times: from and to"),
        ({"baseline": "0 to 4"}, CaseRefused, "write a list"),
        ({"signal": "1 2 3"}, CaseRefused, "“signal” is '1 2 3': write a list"),
        ({"signal": [1.5] * 12}, CaseRefused, "“signal” is 1.5"),
        ({"signal": ["x"] * 12}, CaseRefused, "“signal” is 'x'"),
        ({"signal": ["1"] * 11}, Refused, "12 times but 11 signals"),
        ({"signal": [*KNEE["signal"][:-1], ">13"]}, Refused, "“signal” holds a bound"),
        ({"minutes": ["<1", *KNEE["minutes"][1:]]}, Refused, "“minutes” holds a bound"),
    ],
)
def test_columns_of_another_form_are_named(changes, kind, words):
    with pytest.raises(kind, match=words):
        onset_of(**changes)


def test_the_repeatability_is_15_where_none_is_given():
    given = {"worked": "281", "prolonged": "295", "rested": "288"}
    recovery = METHODS["structure_recovery"].function

    assert recovery(given)["meaningful"] is False
    assert recovery({**given, "prolonged": "296"})["meaningful"] is True
    assert recovery({**given, "r": "14"})["meaningful"] is True


def test_each_calculation_gives_the_keys_that_it_promises():
    given = {
        "oxidation_onset": KNEE,
        "structure_recovery": {"worked": "281", "prolonged": "327", "rested": "296"},
        "viscosity_index": {"kv40": "73.30", "kv100": "8.86"},
    }

    for name, calculation in METHODS.items():
        assert set(calculation.function(given[name])) == set(calculation.gives)
