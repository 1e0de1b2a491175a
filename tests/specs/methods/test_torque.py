from decimal import Decimal

import pytest

from specs.methods.outcome import ParametersRefused, setting
from specs.methods.torque import (
    ARM,
    TorqueRefused,
    gram_centimetres,
    millinewton_metres,
    slots,
)
from tests.specs.methods.bench import bar_keys, carried_out


def torque(text, **parameters):
    return carried_out("low-temperature torque", {"dynamometer": text}, **parameters)


def test_150_g_are_975_gram_centimetres_or_956_millinewton_metres():
    outcome = torque("150")

    assert outcome.parts == {"g·cm": "975"}
    assert outcome.value.canonical == "95.6148375"
    assert outcome.reported.canonical == "95.6"
    assert outcome.says == "150 g on 6.5 cm is 975 g·cm"
    assert outcome.can_count


def test_10000_gram_centimetres_are_981_millinewton_metres():
    assert round(millinewton_metres(Decimal(10_000))) == 981


def test_another_arm_is_a_setting():
    assert torque("150", arm="13").reported.canonical == "191"


def test_start_and_running_have_their_own_words():
    [start], [running] = slots({}), slots({"at": "running"})

    assert (start.label, running.label) == (
        "Dynamometer, start",
        "Dynamometer, after 60 min",
    )


@pytest.mark.parametrize("text", ["-1", "<150", ">150"])
def test_a_reading_without_sense_cannot_count(text):
    outcome = torque(text)

    assert bar_keys(outcome) == ["dynamometer"]
    assert outcome.value is None


def test_without_a_reading_there_is_no_torque():
    assert not torque("").complete
    assert torque("0").reported.canonical == "0"


@pytest.mark.parametrize(("grams", "arm"), [("-0.1", "6.5"), ("150", "0")])
def test_neither_reading_nor_arm_lies_below_nought(grams, arm):
    with pytest.raises(TorqueRefused, match=rf"{grams} g|{arm} cm"):
        gram_centimetres(Decimal(grams), Decimal(arm))


def test_an_arm_of_no_length_is_refused_where_it_is_set():
    with pytest.raises(ParametersRefused, match="Arm of the dynamometer, cm cannot be"):
        setting({"arm": "0"}, ARM)


def test_a_reading_without_sense_is_complete_when_nothing_else_is_awaited():
    assert torque("-1").complete
    assert not torque("-1", asked="temperature").complete
