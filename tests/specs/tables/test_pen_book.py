"""A pen book as it is kept, cell by cell and count by count: before anything is answered."""

import pytest

from specs.tables.asking import COLUMN
from specs.tables.checked import Checked
from specs.tables.checking import checked
from specs.tables.finding.headings import proposed
from specs.tables.finding.tables import blocks_of
from specs.tables.saying import Answers, Fate, RowRole
from tests.specs.tables.pen_book import KNOWN, TEXT_OF_IT, USES, sheet_of

SHEET = sheet_of(TEXT_OF_IT)
(BLOCK,) = blocks_of(SHEET)
T, C, A, R, L, E = (
    Fate.TAKEN, Fate.CONVERTED, Fate.ASKS, Fate.REFUSED, Fate.LEFT_OUT, Fate.EMPTY,
)  # fmt: skip

# address, fate, value, what rule or reason says, matter of its question
CELLS = [
    ("A3", T, "Q1-25-0377", "", ""),
    ("B3", C, "2025-12-03", "day first: 15/12/25", ""),
    ("D3", A, "280.5", "no whole unit: is it a mean already", "mean or reading"),
    ("E3", T, "301", "", ""),
    ("F3", T, "201", "in °C: the head states no unit", ""),
    ("G3", C, "37.9", "5.5 psi = 37.9 kPa", ""),
    ("H3", T, "1b", "", ""),
    ("I3", T, "ok", "", ""),
    ("A4", E, "Q1-25-0377", "as in row 3", ""),
    ("B4", E, "2025-12-03", "as in row 3", ""),
    ("D4", T, "281", "reading 2 of 3", ""),
    ("I4", T, "2nd cup", "", ""),
    ("C5", E, "LX2", "as in row 3", ""),
    ("D5", T, "279", "reading 3 of 3", ""),
    ("A6", A, "Q1-25-0378", "letter (O)", "letter in number"),
    ("B6", C, "2025-12-18", "counted in days from 1900", ""),
    ("D6", A, "27.9", "in millimetres?", "millimetres"),
    ("G6", A, "38", "In which unit", "unit"),
    ("H6", T, "1a", "", ""),
    ("B7", T, "2025-12-12", "day first", ""),
    ("D7", T, ">300", "", ""),
    ("F7", T, ">288", "in °C", ""),
    ("G7", A, "<2", "In which unit", "unit"),
    ("B8", T, "2025-12-15", "", ""),
    ("D8", A, "283", "the first result is missing", "retest"),
    ("G8", A, "0.40", "In which unit", "unit"),
    ("H8", T, "pass", "a finding without its rating", ""),
    ("B9", C, "2025-12-15", "cannot be month first", ""),
    ("D9", A, "281", "blank inside: 281 is proposed", "blank inside"),
    ("E9", T, "298", "", ""),
    ("F9", C, "197.8", "388 °F = 197.8 °C", ""),
    ("G9", T, "not tested", "“n/a” says so", ""),
    ("D10", L, "", "repeats row 9", ""),
    ("B11", C, "2026-01-03", "day first", ""),
    ("D11", R, "", "looks like limits", "limits"),
    ("B12", R, "", "no day of the calendar", "no such day"),
    ("D12", T, "279", "", ""),
    ("G12", A, "35", "In which unit", "unit"),
    ("H12", C, "1b", "“1B” is 1b", ""),
    ("B13", A, "", "no date", "no date"),
    ("D13", R, "281", "if you mean 281, write it so", "letter in number"),
    ("H13", T, "2a", "", ""),
    ("C14", L, "", "", ""),
    ("D14", L, "", "", ""),
]


def test_the_table_is_found_below_its_title():
    assert (BLOCK.titles, BLOCK.heads, BLOCK.units_row) == ((1,), (2,), None)
    assert (BLOCK.first, BLOCK.last) == (3, 14)
    assert BLOCK.letters == tuple("ABCDEFGHI")


def test_the_head_says_what_each_column_is_taken_for():
    assert proposed(BLOCK, SHEET, KNOWN) == USES


@pytest.fixture(scope="module")
def first() -> Checked:
    return checked(SHEET, BLOCK, USES, Answers(), KNOWN)


@pytest.mark.parametrize("cell", CELLS, ids=[it[0] for it in CELLS])
def test_each_cell_is_taken_converted_asked_about_or_refused(first, cell):
    address, fate, value, words, matter = cell
    letter, row = address[0], int(address[1:])

    said = first.at(letter, row)

    assert (said.fate, said.value) == (fate, value)
    assert words in f"{said.rule} {said.why}"
    assert said.question == (f"{letter}/{matter}" if matter else "")


def test_each_row_is_told_apart(first):
    roles = {row: first.role(row) for row in range(BLOCK.first, BLOCK.last + 1)}

    assert roles == {
        3: RowRole.DATA, 4: RowRole.CONTINUATION, 5: RowRole.CONTINUATION,
        6: RowRole.DATA, 7: RowRole.DATA, 8: RowRole.DATA, 9: RowRole.DATA,
        10: RowRole.DUPLICATE, 11: RowRole.DATA, 12: RowRole.HELD, 13: RowRole.HELD,
        14: RowRole.SUMMARY,
    }  # fmt: skip
    assert first.joined == {4: 3, 5: 3, 10: 9}
    assert first.held == {12: "has no date that can be read", 13: "has no date"}


def test_four_questions_are_about_columns(first):
    about_columns = {it.key for it in first.questions if it.level == COLUMN}

    assert about_columns == {
        "D/millimetres", "D/retest", "D/mean or reading", "G/unit",
    }  # fmt: skip


def test_five_rows_raise_questions_or_refusals_of_single_cells(first):
    cells = [at for it in first.questions if it.level != COLUMN for at in it.cells]

    assert {int(at[1:]) for at in cells} == {6, 9, 11, 12, 13}
    assert sorted(cells) == ["A6", "B12", "B13", "D11", "D13", "D9"]


def test_what_is_odd_about_the_unit_is_one_question(first):
    question = next(it for it in first.questions if it.key == "G/unit")

    assert question.cells == ("G6", "G7", "G8", "G12", "G13")
    assert "0.40 lies far from the others" in question.sentence
    made = {it.key: it.makes for it in question.choices}
    assert made["kPa; 0.40 in bar"] == "0.40 bar = 40.0 kPa"
    assert made["kPa; 0.40 in kgf/cm²"] == "0.40 kgf/cm² = 39.2 kPa"
    assert "kPa; leave 0.40 out" in made
    assert question.proposed == ""


def test_the_sheet_speaks_for_some_answers(first):
    proposed = {it.key: it.proposed for it in first.questions if it.proposed}

    assert proposed == {
        "A/letter in number": "proposed",
        "D/blank inside": "joined",
        "D/millimetres": "mm",
    }


def test_the_choices_show_what_they_make(first):
    made = {
        (it.key, choice.key): choice.makes
        for it in first.questions
        for choice in it.choices
    }

    assert made["D/millimetres", "mm"] == "27.9 mm = 279 × 0.1 mm"
    assert "280.17, reported as 280" in made["D/mean or reading", "reading"]


def test_nothing_is_ready_before_all_is_answered(first):
    assert not first.is_ready
    assert first.answered == ()


def test_no_value_comes_of_a_cell_that_waits(first):
    cells = {at for line in first.lines for it in line.values for at in it.cells}

    waiting = {f"{it[0]}" for it in CELLS if it[1] in {A, R, L}}
    assert not cells & waiting
    assert not cells & {"D4", "D5"}  # readings of a set that waits
