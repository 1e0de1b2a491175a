"""Tables with one result a row: what was tested is told by a cell, and each result is read as one of its characteristic."""

import pytest

from specs.tables.checking import checked
from specs.tables.finding.headings import proposed
from specs.tables.finding.tables import blocks_of
from specs.tables.known import Measured, Role, Use
from specs.tables.saying import Answers, Fate
from tests.specs.tables.one_column import known_with
from tests.specs.tables.pen_book import KNOWN
from tests.specs.tables.typed import sheet_of

HEADS = "Batch;Date;Product;Test;Result;Unit;Remark\n"
HEAD = "Q1-25-0377;2025-12-03;LX2;"
W60, DROP = "worked-penetration", "dropping-point-block"
BATH = Measured("dropping-point-bath", "Dropping point", "bath", "°C")


def look(rows, *, heads=HEADS, choices=None, instead=None, known=KNOWN):
    sheet = sheet_of(heads + rows)
    (block,) = blocks_of(sheet)
    answers = Answers(choices or {}, instead or {})
    return checked(sheet, block, proposed(block, sheet, known), answers, known)


def values(line):
    return {it.characteristic: it.value for it in line.values}


def test_the_columns_are_proposed_for_what_they_are():
    sheet = sheet_of(HEADS + HEAD + "Worked penetration;281;0.1 mm;")
    (block,) = blocks_of(sheet)

    uses = proposed(block, sheet, KNOWN)

    told = {letter: uses[letter].role for letter in "DEF"}
    assert told == {"D": Role.TESTED, "E": Role.FOUND, "F": Role.UNIT}


@pytest.mark.parametrize(
    "heads", ["Batch;Date;Product;Test;Pen W60", "Batch;Date;Product;Result;Pen W60"]
)
def test_one_of_the_two_columns_alone_is_neither(heads):
    sheet = sheet_of(heads + "\n" + HEAD + "x;281")
    (block,) = blocks_of(sheet)

    roles = {it.role for it in proposed(block, sheet, KNOWN).values()}

    assert not roles & {Role.TESTED, Role.FOUND}


def test_beside_columns_of_results_the_pair_is_not_proposed():
    sheet = sheet_of("Batch;Date;Product;Test;Result;Pen W60\n" + HEAD + "a;1;281")
    (block,) = blocks_of(sheet)

    uses = proposed(block, sheet, KNOWN)

    assert uses["F"] == Use(Role.RESULT, W60)
    assert uses["D"].role is uses["E"].role is Role.LEFT_OUT


def test_rows_of_one_sample_make_one_line():
    found = look(
        HEAD + "Worked penetration;280,5;0.1 mm;first cup\n"
        ";;;Dropping point;388;°F;\n"
        ";;;Copper strip;1B;;stained\n"
    )

    (line,) = found.lines
    assert (line.batch, line.day, line.product) == ("Q1-25-0377", "2025-12-03", "LX2")
    assert values(line) == {W60: "280.5", DROP: "197.8", "copper-strip": "1b"}
    assert line.rows == (2, 3, 4)
    assert line.remark == "first cup; stained"


def test_each_value_keeps_its_cell_its_text_and_the_rule():
    found = look(HEAD + "Dropping point;388;°F;\n")

    (value,) = found.lines[0].values
    assert (value.cells, value.raw) == (("E2",), ("388",))
    assert value.rule == "388 °F = 197.8 °C"


def test_what_was_tested_again_is_a_line_of_its_own():
    found = look(
        HEAD + "Worked penetration;281;0.1 mm;\n"
        + HEAD + "Dropping point;201;°C;\n"
        + HEAD + "Worked penetration;283;0.1 mm;second cup\n"
    )  # fmt: skip

    assert [values(it) for it in found.lines] == [{W60: "281", DROP: "201"}, {W60: "283"}]  # fmt: skip


def test_a_row_that_comes_again_is_taken_once():
    found = look(2 * (HEAD + "Worked penetration;281;0.1 mm;\n"))

    assert [values(it) for it in found.lines] == [{W60: "281"}]
    assert found.at("E", 3).rule == "repeats row 2"


def test_other_words_are_asked_about_once_with_what_they_speak_for():
    rows = "".join(
        f"Q1-25-{at:04};2025-12-03;LX2;Pen W60;281;0.1 mm;\n" for at in range(3)
    )

    found = look(rows)
    answered = look(rows, choices={"D/unknown test pen w60": f"as {W60}"})

    (question,) = found.questions
    assert question.key == "D/unknown test pen w60"
    assert question.proposed == f"as {W60}"
    assert "(3 rows)" in question.sentence
    assert all(not it.values for it in found.lines)
    assert [values(it) for it in answered.lines] == 3 * [{W60: "281"}]


@pytest.mark.parametrize("code", [W60, "Prolonged-Penetration-100000"])
def test_a_code_names_its_test_whatever_capitals_it_has(code):
    found = look(f"{HEAD}{code};281;0.1 mm;\n")

    assert found.questions == ()
    assert values(found.lines[0]) == {code.casefold(): "281"}


def test_a_name_that_several_tests_bear_is_told_so():
    found = look(HEAD + "Dropping point;201;°C;\n", known=known_with(BATH))

    (question,) = found.questions
    assert (
        "“Dropping point” in “Test” is a name of 2 tests here (1 row)"
        in question.sentence
    )
    assert question.proposed == f"as {DROP}"


def test_words_that_speak_for_nothing_propose_nothing_and_may_be_left_out():
    rows = HEAD + "Odour;fishy;;\n"

    found = look(rows)
    left = look(rows, choices={"D/unknown test odour": "leave"})

    assert found.questions[0].proposed == ""
    assert found.at("E", 2).fate is Fate.ASKS
    assert left.at("E", 2).fate is Fate.LEFT_OUT
    assert not any(it.values for it in left.lines)


def test_a_result_without_a_test_is_refused_until_it_is_written():
    rows = HEAD + ";281;0.1 mm;\n"

    found = look(rows)
    written = look(rows, instead={"D2": "Worked penetration"})

    (question,) = found.questions
    assert (question.key, question.is_refusal) == ("D/no test", True)
    assert "Nothing in “Test” says what was tested in 1 row" in question.sentence
    assert values(written.lines[0]) == {W60: "281"}


def test_a_unit_of_another_measure_is_asked_and_a_missing_one_is_told():
    found = look(
        HEAD + "Dropping point;201;kPa;\n" + HEAD + "Worked penetration;281;;\n"
    )

    assert [it.key for it in found.questions] == ["E/unit of Dropping point"]
    assert found.at("E", 3).value == "281"


def test_questions_of_two_characteristics_in_one_column_are_told_apart():
    rows = (
        HEAD + "Oxidation, pressure drop;5.5;;\n"
        + HEAD + "Worked penetration;265-295;0.1 mm;\n"
    )  # fmt: skip

    keys = [it.key for it in look(rows).questions]

    assert "E/limits of Worked penetration" in keys
    assert len(keys) == len(set(keys))


def test_not_tested_is_no_value_and_stands_in_nobodys_way():
    found = look(
        HEAD + "Worked penetration;n/a;0.1 mm;\n"
        + HEAD + "Worked penetration;281;0.1 mm;\n"
    )  # fmt: skip

    assert [values(it) for it in found.lines] == [{W60: "281"}]


def test_a_column_of_results_beside_the_pair_loses_nothing():
    sheet = sheet_of("Batch;Date;Product;Test;Result;Pen\n" + HEAD + "Dropping point;201;281")  # fmt: skip
    (block,) = blocks_of(sheet)
    uses = proposed(block, sheet, KNOWN) | {
        "D": Use(Role.TESTED), "E": Use(Role.FOUND), "F": Use(Role.RESULT, W60),
    }  # fmt: skip

    found = checked(sheet, block, uses, Answers(), KNOWN)

    assert [values(it) for it in found.lines] == [{DROP: "201"}, {W60: "281"}]


def test_very_many_names_are_no_tests():
    rows = "".join(f"{HEAD}thing {at};1;;\n" for at in range(70))

    found = look(rows)

    assert len(found.questions) == 61
    last = next(it for it in found.questions if it.key == "D/unknown test")
    assert last.is_refusal
    assert "take the column for something else" in last.sentence
