"""The check of a table against a form: cells, questions, and what an answer does."""

import datetime as dt
from dataclasses import replace

import pytest

from specs.tables.forms import Kept, check, proposed
from specs.tables.forms.form import Form, FormColumn, Reads
from specs.tables.forms.kept import names_of
from specs.tables.forms.objections import Objection
from specs.tables.saying import Answers, Choice, Fate
from tests.factories import tables

FORM = Form(
    "greases",
    "Greases",
    "code",
    (
        FormColumn("code", "Code", required=True, fills_down=True, also=("Sorte",)),
        FormColumn("colour", "Colour", reads=Reads.CHOICE, choices=("brown", "blue"), means={"braun": "brown"}),
        FormColumn("oil", "Oil", reads=Reads.NAME, of="oil"),
        FormColumn("mass", "Mass", unit="kg", reads=Reads.NUMBER),
        FormColumn("months", "Months", reads=Reads.WHOLE),
        FormColumn("made_on", "Made on", reads=Reads.DAY),
    ),
)  # fmt: skip
HEADS = ("Code", "Colour", "Oil", "Mass", "Months", "Made on")
OILS = names_of(
    [("M150", "M150"), ("mineral", "M150"), ("mineral", "M220"), ("P100", "P100")]
)
KEPT = Kept(dt.date(2026, 3, 4), {"oil": OILS})
GOOD = ("LX2", "Braun", "p100", "12,5", "6", "2026-02-03")


def looked(*rows, choices=None, instead=None, heads=HEADS, **more):
    sheet = tables.sheet(heads, *rows)
    block = tables.block(sheet)
    answers = Answers(choices or {}, instead or {})
    mapping = proposed(block, FORM)
    return check(FORM, sheet, block, mapping, answers=answers, kept=KEPT, **more)


def test_every_cell_says_what_becomes_of_it():
    it = looked(GOOD)

    assert it.is_ready
    assert it.rows[0].values == {
        "code": "LX2",
        "colour": "brown",
        "oil": "P100",
        "mass": "12.5",
        "months": "6",
        "made_on": "2026-02-03",
    }
    assert it.at("D", 2).fate == Fate.CONVERTED
    assert it.at("D", 2).rule == "“12,5” is 12.5"
    assert it.at("A", 2).fate == Fate.TAKEN


def test_a_column_that_nobody_wants_is_left_out():
    it = looked((*GOOD, "secret"), heads=(*HEADS, "Remarks of the miller"))

    assert it.at("G", 2).fate == Fate.LEFT_OUT
    assert it.is_ready


def test_blank_rows_and_a_repeated_head_are_no_data():
    it = looked(GOOD, ("",) * 6, HEADS, ("LX3", *GOOD[1:]))

    assert [role.value for role in it.roles] == ["data", "blank", "head", "data"]
    assert [row.values["code"] for row in it.rows] == ["LX2", "LX3"]


@pytest.mark.parametrize(
    ("place", "text", "why"),
    [
        (1, "grey", "write one of brown, blue"),
        (2, "rape", "no oil that is kept here"),
        (2, "mineral", "can mean M150 or M220: write which"),
        (3, "much", "much"),
        (3, ">12", "is a bound: write the number itself"),
        (4, "6.5", "no whole number"),
        (0, "a\x07b", "sign that cannot be printed"),
    ],
)
def test_a_cell_that_cannot_be_read_is_refused_and_asked(place, text, why):
    row = [*GOOD]
    row[place] = text

    it = looked(tuple(row))

    letter = "ABCDEF"[place]
    assert it.at(letter, 2).fate == Fate.REFUSED
    assert why in it.at(letter, 2).why
    (question,) = it.questions
    assert question.key == it.at(letter, 2).question == f"{letter}/cannot be read"
    assert question.takes_text
    assert question.is_refusal
    assert it.rows == ()


def test_a_refused_cell_is_written_anew():
    it = looked(("LX2", "grey", *GOOD[2:]), instead={"B2": "blue"})

    assert it.is_ready
    assert it.rows[0].values["colour"] == "blue"
    assert it.at("B", 2).rule == "written instead of “grey”"


def test_what_is_written_anew_is_read_like_any_other():
    it = looked(("LX2", "grey", *GOOD[2:]), instead={"B2": "green"})

    assert "“green” is not among what" in it.questions[0].sentence


def test_or_its_cell_is_left_empty():
    it = looked(("LX2", "grey", *GOOD[2:]), choices={"B/cannot be read": "cells"})

    assert it.is_ready
    assert "colour" not in it.rows[0].values
    assert "left empty" in it.at("B", 2).why
    assert [one.key for one in it.answered] == ["B/cannot be read"]


def test_or_its_row_is_left_out_whole():
    it = looked(("LX2", "grey", *GOOD[2:]), GOOD, choices={"B/cannot be read": "rows"})

    assert [row.row for row in it.rows] == [3]
    assert it.role(2).value == "held"
    assert "“grey” is not among what “Colour” can say" in it.held[2]
    assert it.at("D", 2).fate == Fate.LEFT_OUT


def test_a_needed_cell_is_never_left_empty():
    it = looked(("", *GOOD[1:]))

    (question,) = it.questions
    assert question.key == "A/missing"
    assert [one.key for one in question.choices] == ["rows"]


def test_a_formula_and_a_fault_are_refused():
    sheet = tables.sheet(HEADS, GOOD)
    columns = [
        replace(it, kinds="t" + kind)
        for it, kind in zip(sheet.columns, "ttffet", strict=True)
    ]
    sheet = replace(sheet, columns=tuple(columns))
    block = tables.block(sheet)

    it = check(FORM, sheet, block, proposed(block, FORM), answers=Answers(), kept=KEPT)

    assert "holds a formula: paste its value" in it.at("C", 2).why
    assert "shows the fault" in it.at("E", 2).why


def test_n_a_is_nothing_in_a_column_that_may_be_empty():
    it = looked(("LX2", "n/a", "-", *GOOD[3:]))

    assert it.is_ready
    assert it.at("B", 2).rule == "“n/a” stands for nothing"


def objecting(rows):
    return [
        Objection(
            row.row,
            "months",
            "How long is it kept?",
            matter="months",
            choices=(Choice("12", "a year"), Choice("24", "two")),
            proposed="12",
            is_refusal=False,
            takes_text=False,
        )
        for row in rows
        if not row.values.get("months")
    ]


def test_what_a_rule_asks_is_asked_once_for_all_rows():
    it = looked((*GOOD[:4], "", ""), (*GOOD[:4], "", ""), GOOD, objects=objecting)

    (question,) = it.questions
    assert (question.key, question.count, question.level) == ("E/months", 2, "column")
    assert question.cells == ("E2", "E3")
    assert it.at("E", 2).fate == Fate.ASKS


def test_and_its_answer_stands_in_every_row_that_asked():
    it = looked(
        (*GOOD[:4], "", ""), GOOD, choices={"E/months": "24"}, objects=objecting
    )

    assert [row.values["months"] for row in it.rows] == ["24", "6"]


def test_an_answer_that_is_none_of_the_choices_is_no_answer():
    it = looked((*GOOD[:4], "", ""), choices={"E/months": "36"}, objects=objecting)

    assert [one.key for one in it.questions] == ["E/months"]


def test_a_rule_says_nothing_of_a_row_that_cannot_be_read():
    it = looked(("LX2", "grey", *GOOD[2:4], "", ""), objects=objecting)

    assert [one.key for one in it.questions] == ["B/cannot be read"]


def test_a_rule_that_is_never_content_does_not_go_on_for_ever():
    def never(rows):
        return [
            Objection(it.row, "mass", "No.", choices=(Choice("1", "one"),))
            for it in rows
        ]

    it = looked(GOOD, choices={"D/does not fit": "1"}, objects=never)

    assert it.rows[0].values["mass"] == "1"


def test_equal_cells_share_one_said():
    it = looked(GOOD, GOOD, GOOD)

    assert it.at("B", 2) is it.at("B", 4)


def test_of_a_name_one_cell_is_asked_and_of_blank_ones_each():
    unknown = looked(*[("LX2", "", "rape", *GOOD[3:])] * 3)
    assert unknown.questions[0].cells == ("C2",)
    assert unknown.questions[0].count == 3

    sheet = tables.sheet(("Code", "Oil"), ("LX2", ""), ("LX3", ""))
    form = Form(
        "x", "x", "code", (FORM.columns[0], replace(FORM.columns[2], required=True))
    )
    block = tables.block(sheet)
    it = check(form, sheet, block, proposed(block, form), answers=Answers(), kept=KEPT)
    assert it.questions[0].cells == ("B2", "B3")


def test_what_a_refused_name_can_mean_is_offered_and_nothing_else():
    it = looked(("LX2", "grey", "mineral", *GOOD[3:]))

    assert it.at("C", 2).value == "M150"
    assert it.at("B", 2).value == ""


def test_what_a_rule_refuses_is_offered_nothing():
    def heavy(rows):
        return [Objection(it.row, "mass", "Too heavy: write less.") for it in rows]

    it = looked(GOOD, objects=heavy)

    assert (it.at("D", 2).fate, it.at("D", 2).value) == (Fate.REFUSED, "")
    assert it.at("D", 2).why == "Too heavy: write less."


def test_columns_are_asked_of_before_cells_and_both_from_the_left():
    rows = [("LX2", "grey", "rape", *GOOD[3:]), (*GOOD[:4], "", "")]

    it = looked(*rows, objects=objecting)

    assert [one.key for one in it.questions] == [
        "E/months",
        "B/cannot be read",
        "C/cannot be read",
    ]


def test_of_several_sentences_the_first_is_told_with_its_row():
    it = looked((*GOOD[:3], "much", *GOOD[4:]), (*GOOD[:3], "more", *GOOD[4:]))

    assert it.questions[0].sentence.endswith("(Row 2, the first of 2.)")
    assert "“much”" in it.questions[0].sentence


def test_a_day_is_written_anew_too():
    it = looked((*GOOD[:5], "31/02/2026"), instead={"F2": "2026-02-28"})

    assert it.rows[0].values["made_on"] == "2026-02-28"
    assert it.at("F", 2).rule.count("written instead of") == 1


def test_what_is_written_for_another_column_or_for_no_cell_changes_nothing():
    it = looked(GOOD, instead={"BA2": "blue", "B": "blue", "2": "blue", "B99": "blue"})

    assert it.rows[0].values["colour"] == "brown"
