"""Numbers that are read but doubted: asked once a column, taken only when somebody says so."""

import pytest

from specs.tables.asking import CELL, COLUMN
from specs.tables.known import Measured
from specs.tables.numbers.single import found_in
from specs.tables.saying import Fate
from tests.specs.tables.one_column import keys, known_with, look, question, said, table

CHANGE = Measured("change", "Change of penetration", unit="0.1 mm", is_signed=True)
QUARTER = Measured("quarter", "Worked penetration", "by the quarter cone", "0.1 mm")


def test_penetrations_ten_times_too_small_are_asked_about_once():
    found = look(table(["27,9", "281", "28.1"]))

    asked = question(found, "D/millimetres")
    assert (asked.count, asked.cells, asked.level) == (2, ("D2", "D4"), COLUMN)
    assert asked.proposed == ""
    assert said(found).fate is Fate.ASKS


def test_a_remark_of_millimetres_speaks_for_them():
    found = look(table(["27,9", "281"], remarks=["pen in mm", ""]))

    assert question(found, "D/millimetres").proposed == "mm"


@pytest.mark.parametrize("remark", ["in 0.1 mm", "1/10 mm", "comma", ""])
def test_a_remark_of_tenths_does_not(remark):
    found = look(table(["27,9"], remarks=[remark]))

    assert question(found, "D/millimetres").proposed == ""


@pytest.mark.parametrize(
    ("choice", "fate", "value"),
    [
        ("mm", Fate.CONVERTED, "279"),
        ("as written", Fate.TAKEN, "27.9"),
        ("leave", Fate.LEFT_OUT, ""),
    ],
)
def test_millimetres_are_settled_by_the_answer(choice, fate, value):
    found = look(table(["27,9"]), choices={"D/millimetres": choice})

    assert found.is_ready
    assert (said(found).fate, said(found).value) == (fate, value)


def test_a_small_change_of_penetration_is_no_doubt():
    found = look(table(["27,9", "-12"]), "change", known=known_with(CHANGE))

    assert found.is_ready
    assert said(found, 1).value == "-12"


def test_a_quarter_cone_has_its_own_range():
    assert look(table(["60"]), "quarter", known=known_with(QUARTER)).is_ready
    assert keys(look(table(["6"]), "quarter", known=known_with(QUARTER))) == [
        "D/millimetres"
    ]


@pytest.mark.parametrize(
    ("choice", "fate", "value", "words"),
    [
        ("take", Fate.CONVERTED, "283", "measured again, the first result is missing"),
        ("leave", Fate.LEFT_OUT, "", "left out as answered"),
    ],
)
def test_a_repeat_whose_first_result_is_missing_is_asked_about(
    choice, fate, value, words
):
    asked = look(table(["283 (retest)", "281*", "280"]))
    answered = look(table(["283 (retest)"]), choices={"D/retest": choice})

    assert (question(asked, "D/retest").count, said(asked).value) == (2, "283")
    assert (said(answered).fate, said(answered).value) == (fate, value)
    assert words in said(answered).rule


def test_a_blank_inside_a_number_is_proposed_without_it():
    found = look(table(["2 81"]))

    asked = question(found, "D/blank inside")
    assert (asked.level, asked.proposed, asked.takes_text) == (CELL, "joined", True)
    answered = look(table(["2 81"]), choices={"D/blank inside": "joined"})
    assert (said(answered).fate, said(answered).value) == (Fate.CONVERTED, "281")


def test_what_was_asked_first_may_raise_the_next_question():
    found = look(table(["2 8"]), choices={"D/blank inside": "joined"})

    assert keys(found) == ["D/out of range"]


def test_numbers_that_nobody_believes_are_asked_about_at_once():
    found = look(table(["2810", "3", "281", "600"]))

    asked = question(found, "D/out of range")
    assert (asked.count, asked.level) == (3, COLUMN)
    assert "2810, 3, 600" in asked.sentence


@pytest.mark.parametrize(("choice", "value"), [("take", "2810"), ("leave", "")])
def test_they_are_taken_or_left_out_as_answered(choice, value):
    found = look(table(["2810"]), choices={"D/out of range": choice})

    assert found.is_ready
    assert said(found).value == value
    assert len(found.lines[0].values) == bool(value)


def test_a_number_below_nought_is_refused_where_there_is_none():
    found = look(table(["-281"]))

    assert keys(found) == ["D/negative"]
    assert said(found).fate is Fate.REFUSED


def test_the_freezing_cold_is_no_refusal():
    assert look(table(["-30"]), "dropping-point-block").is_ready


def test_a_refused_cell_is_written_anew_or_left_out():
    refused = look(table(["28l", "28I", "280"]))
    written = look(table(["28l", "280"]), instead={"D2": "281"})
    left = look(table(["28l", "280"]), choices={"D/letter in number": "leave"})

    asked = question(refused, "D/letter in number")
    assert (asked.count, asked.is_refusal, asked.takes_text) == (2, True, True)
    assert said(refused).value == "281"
    assert (said(written).value, said(written).fate) == ("281", Fate.CONVERTED)
    assert said(written).rule == "written instead of “28l”"
    assert written.lines[0].values[0].raw == ("28l",)
    assert (left.is_ready, said(left).fate) == (True, Fate.LEFT_OUT)
    assert "letter among its digits" in said(left).why


def test_what_is_written_instead_is_asked_about_in_its_turn():
    found = look(table(["28l"]), instead={"D2": "27,9"})

    assert keys(found) == ["D/millimetres"]
    assert [it.key for it in found.answered] == ["D/written instead"]


def test_equal_cells_share_what_is_said_of_them():
    found = look(table(["281"] * 50))

    assert len({id(it) for it in found.said["D"]}) == 1


def test_a_comment_of_a_cell_is_told():
    found = look(table(["281", "281"], notes={"D2": "really 282\n(Anna)"}))

    assert said(found).rule == "the cell has a comment: “really 282 (Anna)”"
    assert said(found, 1).rule == ""


def test_each_different_text_of_a_column_is_read_once(monkeypatch):
    read = []

    def counted(kind, text):
        read.append(text)
        return found_in(kind, text)

    monkeypatch.setattr("specs.tables.numbers.values.found_in", counted)

    found = look(table(["281", "282", "281", "27,9"] * 500))

    assert sorted(read) == ["27,9", "281", "282"]
    assert question(found, "D/millimetres").count == 500
