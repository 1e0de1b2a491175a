"""Of which batch, day and product a row is; what lacks one is held."""

import pytest

from specs.tables.saying import Fate, RowRole
from tests.specs.tables.one_column import keys, look, question, table


@pytest.mark.parametrize(
    ("lacks", "letter", "key"),
    [
        ({"batches": ["", "B-1"], "days": ["2025-12-03", "2025-12-04"]}, "A", "A/no batch"),
        ({"days": ["", "2025-12-04"]}, "B", "B/no date"),
        ({"products": ["", "PU2"]}, "C", "C/no product"),
    ],
)  # fmt: skip
def test_a_row_without_one_of_them_is_held_and_asked_about(lacks, letter, key):
    found = look(table(["281", "282"], **lacks))

    assert found.role(2) is RowRole.HELD
    assert found.held[2].startswith("has no ")
    assert question(found, key).cells == (f"{letter}2",)
    assert question(found, key).takes_text
    assert found.at(letter, 2).fate is Fate.ASKS
    assert [it.rows for it in found.lines] == [(3,)]


def test_what_was_missing_may_be_written():
    found = look(table(["281"], days=[""]), instead={"B2": "2025-12-24"})

    assert found.is_ready
    assert found.lines[0].day == "2025-12-24"
    assert "written where nothing stood" in found.at("B", 2).rule


def test_a_row_that_is_left_out_raises_no_other_question():
    sheet = table(["28l", "2 81"], days=["", "2025-12-03"])
    found = look(sheet, choices={"B/no date": "leave"})

    assert keys(found) == ["D/blank inside"]
    assert found.held == {2: "left out as answered"}
    assert (found.at("D", 2).fate, found.at("D", 2).why) == (
        Fate.LEFT_OUT,
        "its row is left out.",
    )


def test_rows_that_belong_to_a_held_one_are_held_with_it():
    sheet = table(
        ["281", "280"], batches=["B-1", ""], days=["31/02/2025", ""], products=["LX2", ""]
    )  # fmt: skip

    found = look(sheet)
    left = look(sheet, choices={"B/no such day": "leave"})

    assert found.held[3] == "belongs to row 2, which has no date that can be read"
    assert left.is_ready
    assert left.held[3] == "left out as answered"


@pytest.mark.parametrize(("letter", "word"), [("A", "batch"), ("B", "date")])
def test_without_a_column_of_batches_or_days_nothing_is_taken(letter, word):
    found = look(table(["281"]), left=(letter,))

    (asked,) = found.questions
    assert asked.key == f"/no column of {word}"
    assert found.lines == ()
    assert look(table(["281"]), left=(letter,), choices={asked.key: "leave"}).is_ready


def test_without_a_column_of_products_it_is_asked_of_which_one_the_table_is():
    sheet = table(["281", "282"])

    found = look(sheet, left=("C",))
    answered = look(sheet, left=("C",), choices={"/product of all": "PU2"})
    left = look(sheet, left=("C",), choices={"/product of all": "leave"})

    assert keys(found) == ["/product of all"]
    assert found.lines == ()
    assert [it.product for it in answered.lines] == ["PU2", "PU2"]
    assert [it.key for it in answered.answered] == ["/product of all"]
    assert (left.is_ready, left.lines) == (True, ())


def test_a_sheet_named_after_a_product_speaks_for_it():
    sheet = table(["281"])
    named = type(sheet)("LX2 2025", sheet.columns)

    assert question(look(named, left=("C",)), "/product of all").proposed == "LX2"
    assert question(look(sheet, left=("C",)), "/product of all").proposed == ""


def test_a_batch_that_waits_gives_no_line_yet():
    sheet = table(
        ["281", "282", "283"], batches=["Q1-25-0001", "Q1-25-O002", "Q1-25-0003"]
    )

    assert [it.rows for it in look(sheet).lines] == [(2,), (4,)]
    found = look(sheet, choices={"A/letter in number": "proposed"})
    assert [it.batch for it in found.lines] == [
        "Q1-25-0001",
        "Q1-25-0002",
        "Q1-25-0003",
    ]
