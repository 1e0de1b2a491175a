"""Batch numbers: taken as they stand, unseen marks aside; a letter where the others have a figure is asked."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.tables.cells import cells_of
from specs.tables.saying import Answers, Fate
from specs.tables.sheet import DAY, FAULT, FORMULA, MOMENT, NUMBER, YES_NO, Merged
from specs.tables.texts.batches import read_batches
from tests.specs.tables.typed import column_of, sheet_of

LETTER = "B/letter in number"


def read(*texts, kinds="", **answers):
    return read_batches(column_of(*texts, kinds=kinds), answers=Answers(**answers))


@pytest.mark.parametrize(
    "text", ["Q1-25-0377", "LOT12", "25/117 B", "Kettle 3 no 14", "377", "Ä-1", "IL-25-7", "BLIO-2", "AB1O-7", "1Ob-7"]
)  # fmt: skip
def test_numbers_are_taken_as_the_plant_writes_them(text):
    (said,) = read(text).said

    assert (said.fate, said.value, said.rule) == (Fate.TAKEN, text, "")


def test_a_letter_where_the_others_have_a_figure_is_asked():
    found = read("Q1-25-0377", "Q1-25-O378", "Q1-25-0379")

    (asked,) = found.questions
    assert (asked.key, asked.level, asked.cells) == (LETTER, "cell", ("B4",))
    assert (asked.proposed, asked.is_refusal) == ("proposed", False)
    assert found.said[1].fate is Fate.ASKS
    assert found.said[1].value == "Q1-25-0378"
    assert "letter (O)" in found.said[1].why


@pytest.mark.parametrize(
    ("text", "meant"),
    [("Q1-25-O378", "Q1-25-0378"), ("Q1-25-03l8", "Q1-25-0318"), ("Q1-25-03І8", "Q1-25-0318"), ("Q1-25-О378", "Q1-25-0378"), ("Q1-2I-OO78", "Q1-21-0078")],
)  # fmt: skip
def test_what_a_letter_may_stand_for(text, meant):
    found = read("Q1-25-0377", text)

    assert found.said[1].value == meant


@pytest.mark.parametrize(
    ("choice", "fate", "value"),
    [
        ("proposed", Fate.CONVERTED, "Q1-25-0378"),
        ("stands", Fate.TAKEN, "Q1-25-O378"),
        ("leave", Fate.LEFT_OUT, ""),
    ],
)
def test_the_answer_settles_it(choice, fate, value):
    found = read("Q1-25-O378", choices={LETTER: choice})

    assert (found.said[0].fate, found.said[0].value) == (fate, value)
    assert found.questions == ()
    assert [it.key for it in found.answered] == [LETTER]


def test_what_is_written_instead_stands_as_it_is_written():
    found = read("Q1-25-O378", instead={"B3": "Q1-25-O379"})

    assert found.said[0].value == "Q1-25-O379"
    assert found.said[0].rule == "written instead of “Q1-25-O378”"
    assert found.questions == ()


def test_a_letter_that_many_numbers_have_is_the_plants_own():
    found = read("O12", "O13", "O14", "015")

    assert [it.fate for it in found.said] == [Fate.TAKEN] * 4


@pytest.mark.parametrize(
    ("text", "value"),
    [("Q1‑25–0377", "Q1-25-0377"), ("Q1\u200b-25", "Q1-25"), ("Ｑ1", "Q1"), ("Q1   25", "Q1 25"), ("\ufeffQ1", "Q1")],
)  # fmt: skip
def test_marks_that_nobody_sees_are_taken_out_and_it_is_said(text, value):
    (said,) = read(text).said

    assert (said.fate, said.value) == (Fate.CONVERTED, value)
    assert said.rule


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("\u202eQ1", "cannot be seen"),
        ("Q1\x00", "cannot be seen"),
        ("Q1\ud800", "cannot be seen"),
        ("Q" * 41, "longer than 40"),
        ("---", "no figure and no letter"),
    ],
)
def test_what_can_be_no_number_is_refused(text, words):
    found = read(text)

    assert found.said[0].fate is Fate.REFUSED
    assert words in found.said[0].why
    assert [it.key for it in found.questions] == ["B/not a batch"]


@pytest.mark.parametrize(
    ("text", "kind", "matter"),
    [
        ("Q1", FORMULA, "formula"), ("", FORMULA, "formula"), ("#REF!", FAULT, "not a batch"),
        ("TRUE", YES_NO, "not a batch"), ("2025-12-03", DAY, "not a batch"), ("2025-12-03 07:00:00", MOMENT, "not a batch"),
    ],
)  # fmt: skip
def test_cells_that_hold_something_else_are_refused(text, kind, matter):
    found = read(text, kinds=kind)

    assert found.said[0].fate is Fate.REFUSED
    assert [it.matter for it in found.questions] == [matter]


def test_a_number_cell_says_that_noughts_may_be_lost():
    whole, parted = read("377", "25.1", kinds=NUMBER * 2).said

    assert (whole.value, whole.rule) == ("377", "")
    assert "noughts" in parted.rule


def test_a_cell_shown_as_one_with_another_says_whence_it_has_its_number():
    sheet = sheet_of("Batch;Pen\nQ1-25-0377;280\n;281", merged=[Merged(2, 1, 3, 1)])

    found = read_batches(cells_of(sheet, "A", [2, 3]), answers=Answers())

    assert [it.value for it in found.said] == ["Q1-25-0377"] * 2
    assert [it.fate for it in found.said] == [Fate.TAKEN, Fate.CONVERTED]
    assert found.said[1].rule == "as in A2"


def test_an_empty_cell_is_empty():
    assert [it.fate for it in read("", " ", "\u200b").said] == [Fate.EMPTY] * 3


@given(st.lists(st.text(max_size=45), min_size=1, max_size=6), st.data())
def test_whatever_stands_there_it_is_taken_clean_or_can_be_answered(texts, data):
    found = read(*texts)
    for said in found.said:
        if said.fate in (Fate.TAKEN, Fate.CONVERTED):
            assert 0 < len(said.value) <= 40
            assert all(unicodedata.category(it)[0] != "C" for it in said.value)
    choices = {
        it.key: data.draw(st.sampled_from([one.key for one in it.choices]))
        for it in found.questions
    }

    assert read(*texts, choices=choices).questions == ()


@given(st.from_regex(r"[A-HJ-NP-Z][0-9]-[0-9]{2}-[0-9]{4}", fullmatch=True))
def test_a_number_without_doubtful_letters_is_never_touched(text):
    (said,) = read(text).said

    assert (said.fate, said.value) == (Fate.TAKEN, text)
