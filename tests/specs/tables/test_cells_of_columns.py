"""The cells of a column: what the file shows as one, ditto marks, what was written instead."""

from specs.tables.cells import cells_of, shown, written_instead
from specs.tables.saying import Answers
from specs.tables.sheet import EMPTY, Merged
from tests.specs.tables.typed import sheet_of

COLUMN = "Batch;Day\nQ1;x\n;y\n;z\nQ2;z"


def test_cells_shown_as_one_have_the_text_of_the_first():
    cells = cells_of(sheet_of(COLUMN, merged=[Merged(2, 1, 3, 1)]), "A", range(2, 6))

    assert list(cells.texts) == ["Q1", "Q1", "", "Q2"]
    assert cells.filled == {3: 2}
    assert cells.kinds[1] == "t"


def test_cells_shown_as_one_across_columns_are_not_spread_to_the_right():
    sheet = sheet_of("Batch;Day\nQ1;\n;", merged=[Merged(2, 1, 3, 2)])

    assert list(cells_of(sheet, "A", [2, 3]).texts) == ["Q1", "Q1"]
    assert list(cells_of(sheet, "B", [2, 3]).texts) == ["", ""]
    assert cells_of(sheet, "B", [2, 3]).filled == {}


def test_a_text_beneath_the_first_stands():
    cells = cells_of(sheet_of(COLUMN, merged=[Merged(2, 1, 5, 1)]), "A", range(2, 6))

    assert list(cells.texts) == ["Q1", "Q1", "Q1", "Q2"]


def test_ditto_marks_stand_for_the_text_above():
    cells = cells_of(sheet_of('Day\n1.1.2025\n"\n\ndo.\n2.1.2025'), "A", range(2, 7))

    assert list(cells.texts) == ["1.1.2025", "1.1.2025", "", "1.1.2025", "2.1.2025"]
    assert cells.filled == {3: 2, 5: 2}


def test_a_ditto_mark_with_nothing_above_stays():
    assert list(cells_of(sheet_of('Day\n"\nx'), "A", [2]).texts) == ['"']


def test_rows_and_columns_that_are_not_there_are_empty():
    sheet = sheet_of(COLUMN)

    assert list(cells_of(sheet, "A", [99]).texts) == [""]
    assert list(cells_of(sheet, "ZZ", [1]).kinds) == [EMPTY]


def test_merged_cells_that_overlap_are_taken_once():
    merged = [Merged(2, 1, 4, 1), Merged(3, 1, 10**9, 1)]

    cells = cells_of(sheet_of(COLUMN, merged=merged), "A", range(2, 6))

    assert list(cells.texts) == ["Q1", "Q1", "Q1", "Q2"]


def test_texts_written_instead_are_found_by_place():
    cells = cells_of(sheet_of(COLUMN), "B", [2, 4])
    answers = Answers(
        instead={"B4": " new ", "B2": " ", "BB4": "x", "B3": "y", "": "z"}
    )

    assert written_instead(cells, answers) == {1: "new"}


def test_a_text_for_a_sentence_is_short_and_printable():
    assert shown(" a\x00b ") == "“a?b”"
    assert shown("x" * 99) == f"“{'x' * 40}…”"
