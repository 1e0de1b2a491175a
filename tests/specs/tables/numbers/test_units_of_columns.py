"""In which unit the numbers of a column stand."""

import pytest

from specs.tables.known import Measured
from specs.tables.saying import Fate
from tests.specs.tables.one_column import keys, known_with, look, question, said, table

OX = "oxidation-drop"
WELD = Measured("weld-load", "Weld load", unit="N", kind="ladder", step="1")
SHARE = Measured("oil-separation", "Oil separation", "30 h", "mass %", step="0.1")
INDEX = Measured("viscosity-index", "Viscosity index")
VISCOSITY = Measured("kv", "Viscosity", unit="mm²/s", step="4 digits")


def test_the_unit_of_the_head_holds_for_every_number():
    found = look(table(["5.5", "6"]), OX, unit="psi")

    assert found.is_ready
    assert (said(found).fate, said(found).value) == (Fate.CONVERTED, "37.9")
    assert said(found, 1).rule == "6 psi = 41.4 kPa"


def test_a_head_in_the_unit_of_the_characteristic_converts_nothing():
    found = look(table(["38"]), OX, unit="kPa")

    assert (said(found).fate, said(found).value) == (Fate.TAKEN, "38")
    assert said(found).rule == "in kPa, as the head says"


def test_pressures_without_a_unit_are_asked_about():
    found = look(table(["38", "35"]), OX)

    assert keys(found) == ["D/unit"]
    assert [it.key for it in question(found, "D/unit").choices] == [
        "kPa", "psi", "bar", "kgf/cm²", "MPa",
    ]  # fmt: skip
    assert said(found).fate is Fate.ASKS
    assert look(table(["38", "35"]), OX, choices={"D/unit": "psi"}).is_ready


def test_a_cell_that_states_its_unit_is_not_asked_about():
    found = look(table(["38 kPa", "5.5 psi", "0,4 bar"]), OX)

    assert found.is_ready
    assert [said(found, at).value for at in range(3)] == ["38", "37.9", "40.0"]
    assert said(found).fate is Fate.TAKEN


def test_a_unit_that_measures_something_else_is_refused():
    found = look(table(["38 mm", "40 %"]), OX, unit="kPa")

    assert keys(found) == ["D/another unit"]
    assert said(found).fate is Fate.REFUSED
    assert "38 mm is not in kPa" in said(found).why


def test_loads_without_a_unit_are_asked_about_too():
    found = look(table(["250", "315"]), "weld-load", known=known_with(WELD))

    assert keys(found) == ["D/unit"]
    answered = look(
        table(["250"]), "weld-load", known=known_with(WELD), choices={"D/unit": "kgf"}
    )
    assert said(answered).rule == "250 kgf = 2451.7 N"


def test_temperatures_are_taken_in_their_unit_and_it_is_told():
    found = look(table(["198", "388F"]), "dropping-point-block")

    assert found.is_ready
    assert said(found).rule == "in °C: the head states no unit"
    assert said(found, 1).value == "197.8"


def test_temperatures_too_high_for_a_grease_are_asked_about():
    found = look(table(["388", "390", "400"]), "dropping-point-block")

    assert keys(found) == ["D/unit"]
    answered = look(
        table(["388", "390", "400"]), "dropping-point-block", choices={"D/unit": "°F"}
    )
    assert said(answered).value == "197.8"


def test_small_and_large_parts_are_named_in_the_choices():
    found = look(table(["38", "36", "40", "0,4", "39000"]), OX)

    choices = [it.key for it in question(found, "D/unit").choices]
    assert "kPa; 0.4 in bar; leave 39000 out" in choices
    assert "kPa; 0.4 too; 39000 too" in choices


@pytest.mark.parametrize(
    ("text", "is_odd"),
    [("100", False), ("760", False), ("761", True), ("1.9", False), ("1.8", True)],
)
def test_twenty_times_the_median_is_odd(text, is_odd):
    asked = question(look(table(["38", "38", "38", text]), OX), "D/unit")

    assert ("far from the others" in asked.sentence) is is_odd


def test_what_is_left_out_of_a_unit_says_so():
    found = look(
        table(["38", "36", "40", "0,4"]), OX, choices={"D/unit": "kPa; leave 0.4 out"}
    )

    assert found.is_ready
    assert said(found, 3).fate is Fate.LEFT_OUT
    assert said(found, 0).value == "38"


def test_many_odd_numbers_are_told_by_their_ends():
    odd = ["0.41", "0.42", "0.43", "0.44"]
    found = look(table(["38", "36", "40", "41", "39", *odd]), OX)

    words = " ".join(it.key for it in question(found, "D/unit").choices)
    assert "0.41 to 0.44 (4 numbers)" in words


def test_a_unit_that_cells_of_the_column_speak_against_is_not_offered():
    found = look(table(["38", "36", "5.5 psi"]), OX)

    assert [it.key for it in question(found, "D/unit").choices] == ["kPa", "psi"]


def test_an_answer_holds_when_its_odd_part_was_written_anew():
    answer = {"D/unit": "kPa; 0.4 in bar"}
    sheet = table(["38", "36", "40", "0,4"])

    found = look(sheet, OX, choices=answer, instead={"D5": "40 kPa"})

    assert found.is_ready
    assert said(found, 3).value == "40"


def test_nought_goes_with_any_unit():
    assert keys(look(table(["0", "38", "36"]), OX)) == ["D/unit"]
    assert "far from" not in question(look(table(["0", "38"]), OX), "D/unit").sentence
    assert keys(look(table(["0", "0"]), OX)) == ["D/unit"]


@pytest.mark.parametrize(
    ("text", "value"), [("2,1 %", "2.1"), ("2,1", "2.1"), ("2.1 wt.%", "2.1")]
)
def test_a_share_may_state_its_percent(text, value):
    found = look(table([text]), "oil-separation", known=known_with(SHARE))

    assert (said(found).fate, said(found).value) == (Fate.TAKEN, value)


def test_a_pure_number_takes_no_unit():
    known = known_with(INDEX)

    assert said(look(table(["95"]), "viscosity-index", known=known)).value == "95"
    assert keys(look(table(["95 kPa"]), "viscosity-index", known=known)) == [
        "D/another unit"
    ]


def test_a_prefix_only_moves_the_decimal_mark():
    assert said(look(table(["27.95 mm"]))).value == "279.5"
    found = look(table(["8.864 cSt"]), "kv", known=known_with(VISCOSITY))
    assert said(found).value == "8.864"


def test_a_column_in_millimetres_by_its_head_is_converted():
    found = look(table(["27.9", "28,1"]), unit="mm")

    assert found.is_ready
    assert [said(found, at).value for at in (0, 1)] == ["279", "281"]


def test_a_head_of_another_measure_asks():
    found = look(table(["38"]), OX, unit="mm")

    assert "says mm" in question(found, "D/unit").sentence
