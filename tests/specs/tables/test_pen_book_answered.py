"""The pen book once everything was answered: eight batches, each value with what it was read from."""

import pytest

from specs.tables.checked import Checked
from specs.tables.checking import checked
from specs.tables.finding.tables import blocks_of
from specs.tables.saying import Answers, Fate
from tests.specs.tables.pen_book import KNOWN, TEXT_OF_IT, USES, sheet_of

SHEET = sheet_of(TEXT_OF_IT)
(BLOCK,) = blocks_of(SHEET)
ANSWERS = Answers(
    choices={
        "A/letter in number": "proposed",
        "D/limits": "leave",
        "D/retest": "take",
        "D/blank inside": "joined",
        "D/millimetres": "mm",
        "D/mean or reading": "reading",
        "G/unit": "kPa; 0.40 in kgf/cm²",
    },
    instead={"B12": "31/01/2026", "B13": "01/02/2026", "D13": "281"},
)

# row, batch, day, product, and its values: cells, value, where it lies
LINES = [
    ((3, 4, 5), "Q1-25-0377", "2025-12-03", "LX2", [
        (("D3", "D4", "D5"), "280", "within"), (("E3",), "301", ""),
        (("F3",), "201", "within"), (("G3",), "37.9", "within"), (("H3",), "1b", "within"),
    ]),
    ((6,), "Q1-25-0378", "2025-12-18", "LX2", [
        (("D6",), "279", "within"), (("F6",), "198", "within"), (("G6",), "38", "within"),
        (("H6",), "1a", "within"),
    ]),
    ((7,), "Q1-25-0379", "2025-12-12", "PU2", [
        (("D7",), ">300", "beyond"), (("F7",), ">288", "within"), (("G7",), "<2", "within"),
        (("H7",), "1b", "within"),
    ]),
    ((8,), "Q1-25-0380", "2025-12-15", "LC2", [
        (("D8",), "283", "within"), (("F8",), "262", "within"), (("G8",), "39.2", "within"),
        (("H8",), "pass", "not known"),
    ]),
    ((9,), "Q1-25-0381", "2025-12-15", "LX2", [
        (("D9",), "281", "within"), (("E9",), "298", ""), (("F9",), "197.8", "within"),
        (("H9",), "1b", "within"),
    ]),
    ((11,), "Q1-25-0382", "2026-01-03", "LX2", []),
    ((12,), "Q1-25-0383", "2026-01-31", "LX2", [
        (("D12",), "279", "within"), (("F12",), "200", "within"), (("G12",), "35", "within"),
        (("H12",), "1b", "within"),
    ]),
    ((13,), "Q1-25-0384", "2026-02-01", "LX2", [
        (("D13",), "281", "within"), (("F13",), "199", "within"), (("G13",), "36", "within"),
        (("H13",), "2a", "beyond"),
    ]),
]  # fmt: skip


@pytest.fixture(scope="module")
def second() -> Checked:
    return checked(SHEET, BLOCK, USES, ANSWERS, KNOWN)


def test_with_every_answer_it_is_ready(second):
    assert second.is_ready
    assert {it.key for it in second.answered} >= set(ANSWERS.choices)
    assert {"B/no such day", "D/written instead"} <= {it.key for it in second.answered}


def test_eight_batches_come_of_twelve_rows(second):
    counts = second.counts

    assert BLOCK.last - BLOCK.first + 1 == 12
    assert counts["batches"] == 8
    assert (
        counts["lines"] == counts["batches with values"] == 7
    )  # of 0382 nothing is left
    assert counts["rows data"] == 8
    assert counts["rows continuation"] == 2
    assert counts["rows duplicate"] == 1
    assert counts["rows summary"] == 1
    assert counts["rows held"] == 0
    assert counts["values"] == sum(len(it[4]) for it in LINES) == 29
    assert counts["questions"] == 0


@pytest.mark.parametrize("expected", LINES, ids=[it[1] for it in LINES])
def test_each_line_tells_its_values_and_where_they_lie(second, expected):
    rows, batch, day, product, values = expected

    line = next(it for it in second.lines if it.batch == batch)

    assert (line.rows, line.day, line.product) == (rows, day, product)
    told = [(it.cells, it.value, it.beside) for it in line.values]
    assert told == values


def test_each_value_remembers_what_stood_there_and_how_it_was_read(second):
    told = {it.cells[0]: it for line in second.lines for it in line.values}

    assert told["D3"].raw == ("280,5", "281", "279")
    assert "mean of 280.5, 281 and 279: 280.17" in told["D3"].rule
    assert told["D6"].raw == ("27,9",)
    assert told["D6"].rule == "27.9 mm = 279 × 0.1 mm"
    assert "measured again, the first result is missing" in told["D8"].rule
    assert told["G8"].raw == ("0,40",)
    assert told["G8"].rule == "0.40 kgf/cm² = 39.2 kPa"
    assert told["D9"].rule == "“2 81” read as 281"
    assert told["D13"].raw == ("28l",)
    assert "written instead of “28l”" in told["D13"].rule


def test_pass_is_words_and_never_a_rating(second):
    words = [it for line in second.lines for it in line.values if it.is_words]

    assert [(it.value, it.beside) for it in words] == [("pass", "not known")]


def test_remarks_of_a_set_stand_together(second):
    remarks = {it.batch: it.remark for it in second.lines}

    assert remarks["Q1-25-0377"] == "ok; 2nd cup"


def test_0_40_may_be_bar_as_well():
    choices = {**ANSWERS.choices, "G/unit": "kPa; 0.40 in bar"}

    found = checked(SHEET, BLOCK, USES, Answers(choices, ANSWERS.instead), KNOWN)

    assert found.at("G", 8).value == "40.0"


def test_a_mean_already_is_taken_alone():
    choices = {**ANSWERS.choices, "D/mean or reading": "mean"}

    found = checked(SHEET, BLOCK, USES, Answers(choices, ANSWERS.instead), KNOWN)

    value = found.lines[0].values[0]
    assert (value.cells, value.value) == (("D3",), "280.5")
    assert found.at("D", 4).fate is Fate.LEFT_OUT


def test_rows_without_a_day_may_be_left_out():
    choices = {**ANSWERS.choices, "B/no date": "leave", "B/no such day": "leave"}

    found = checked(SHEET, BLOCK, USES, Answers(choices), KNOWN)

    assert found.is_ready
    assert found.counts["batches"] == 6
    assert found.counts["rows held"] == 2
    assert found.at("D", 13).why == "its row is left out."


def test_a_choice_that_is_not_offered_answers_nothing():
    found = checked(
        SHEET, BLOCK, USES, Answers({**ANSWERS.choices, "G/unit": "stone"}), KNOWN
    )

    assert "G/unit" in {it.key for it in found.questions}
    assert found.at("G", 6).fate is Fate.ASKS


def test_the_same_file_tells_the_same_lines_again(second):
    again = checked(
        sheet_of(TEXT_OF_IT), BLOCK, USES, Answers(ANSWERS.choices, ANSWERS.instead), KNOWN
    )  # fmt: skip

    assert again.lines == second.lines
