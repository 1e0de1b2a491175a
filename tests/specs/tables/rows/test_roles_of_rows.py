"""What each row is: data, a row that belongs to another, a summary, a head again, a title, nothing."""

import pytest

from specs.tables.finding.tables import blocks_of
from specs.tables.known import Role, Use
from specs.tables.rows.roles import notes, roles, why
from specs.tables.saying import RowRole
from specs.tables.sheet import FORMULA, Merged
from tests.specs.tables.typed import sheet_of

HEAD = "Batch;Date;Product;Pen W60;Drop pt;Remark"
USES = {
    "A": Use(Role.BATCH),
    "B": Use(Role.DAY),
    "C": Use(Role.PRODUCT),
    "D": Use(Role.RESULT, "worked-penetration"),
    "E": Use(Role.RESULT, "dropping-point-block"),
    "F": Use(Role.REMARK),
}
DATA, JOINS, SUMMARY, BLANK, TITLE, AGAIN = (
    RowRole.DATA, RowRole.CONTINUATION, RowRole.SUMMARY, RowRole.BLANK, RowRole.TITLE, RowRole.HEAD,
)  # fmt: skip
FIRST = "Q1-25-0377;2025-12-03;LX2;280;201;"
NEXT = "Q1-25-0378;2025-12-04;LX2;281;200;"


def found(*rows, uses=USES, instead=None, **more):
    sheet = sheet_of("\n".join([HEAD, *rows]), **more)
    (block,) = blocks_of(sheet)
    return roles(block, sheet, uses, instead)


def test_rows_without_batch_and_day_belong_to_the_one_above():
    assert found(FIRST, ";;;281;;2nd cup", ";;;279;;", NEXT) == (
        [DATA, JOINS, JOINS, DATA],
        {3: 2, 4: 2},
    )


def test_rows_with_a_batch_or_a_day_alone_belong_to_none():
    assert (
        found(FIRST, "Q1-25-0378;;LX2;281;;", ";2025-12-04;LX2;281;;", NEXT)[0]
        == [DATA] * 4
    )


def test_past_an_empty_row_nothing_is_joined():
    assert found(FIRST, ";;;;;", ";;;281;;", NEXT) == ([DATA, BLANK, DATA, DATA], {})


def test_another_product_makes_another_row():
    assert found(FIRST, ";;PU2;281;;", NEXT) == ([DATA] * 3, {})


def test_the_first_row_belongs_to_none():
    assert found(";;;281;;", FIRST) == ([DATA, DATA], {})


def test_a_batch_cell_shown_as_one_is_one_batch():
    rows = "Q1-25-0377;2025-12-03;LX2;280;201;", ";;;281;;", ";2025-12-04;;282;;", NEXT

    assert found(*rows, merged=[Merged(2, 1, 4, 1)]) == (
        [DATA, JOINS, DATA, DATA],
        {3: 2},
    )


def test_ditto_marks_are_the_batch_above():
    assert found(FIRST, '";";";281;;', "ditto;2025-12-05;LX2;281;;", NEXT) == (
        [DATA, JOINS, DATA, DATA],
        {3: 2},
    )


def test_a_batch_written_into_an_empty_cell_makes_it_a_row_of_its_own():
    rows = FIRST, ";;;281;;", NEXT

    assert found(*rows, instead={"A3": "Q1-25-0390"}) == ([DATA] * 3, {})


@pytest.mark.parametrize(
    "row",
    [
        ";;Average;280,1;299;", "Mean;;;280;200;", "Mittelwert:;;;280;200;", ";Summe;;280;200;",
        ";;;280;200;Ø", "n;;;12;12;", "s;;;1,2;3;", "Std. Dev.;;;1,2;3;", "Mean of 12;;;280;200;",
        "Min.;;;270;190;", "Max;;;290;205;", "Mittelwert (n=12);;;280;200;", "Average 2025;;;280;200;",
        "Limits;;;265-295;190;", "Soll;;;280;190;", "Spec.;;;265;190;", "MEAN;;;280;200;",
    ],
)  # fmt: skip
def test_summaries_and_limits_are_no_results(row):
    assert found(FIRST, NEXT, row) == ([DATA, DATA, SUMMARY], {})


@pytest.mark.parametrize(
    "row",
    [
        "Q1-25-0379;2025-12-05;LX2;280;201;average batch", "Q1-25-0379;2025-12-05;LX2;280;201;Mean",
        "Q1-25-0379;;LX2;280;201;max", "Meaning-1;2025-12-05;LX2;280;201;",
    ],
)  # fmt: skip
def test_the_words_in_a_row_with_a_batch_leave_it_a_result(row):
    assert found(FIRST, NEXT, row)[0][-1] is DATA


def test_a_row_of_formulas_without_a_batch_is_a_summary():
    kinds = {"D4": FORMULA, "E4": FORMULA}

    assert found(FIRST, NEXT, ";;;280.5;200.5;", kinds=kinds)[0][-1] is SUMMARY


def test_a_formula_beside_a_typed_number_is_no_summary():
    assert found(FIRST, ";;;280.5;200;", kinds={"D3": FORMULA})[0][-1] is JOINS


def test_a_formula_that_was_never_worked_out_is_no_empty_cell():
    assert found(FIRST, ";;;;200;", NEXT, kinds={"A3": FORMULA})[0] == [DATA] * 3


def test_a_head_again_is_a_head():
    assert found(FIRST, ";;;;;", HEAD, NEXT, HEAD) == (
        [DATA, BLANK, AGAIN, DATA, AGAIN],
        {},
    )


def test_units_again_are_units():
    sheet = sheet_of(f"{HEAD}\n;;;0,1 mm;°C;\n{FIRST}\n\n{HEAD}\n;;;0,1 mm;°C;\n{NEXT}")
    (block,) = blocks_of(sheet)

    assert block.units_row == 2
    assert roles(block, sheet, USES)[0] == [DATA, BLANK, AGAIN, RowRole.UNITS, DATA]


@pytest.mark.parametrize(
    "row", ["December;;;;;", "Week 49 2025;;;;;", "Page 2 of 3;;;;;"]
)
def test_words_alone_in_a_row_are_a_title(row):
    assert found(FIRST, row, NEXT) == ([DATA, TITLE, DATA], {})


def test_a_batch_alone_in_a_row_is_a_batch():
    assert found(FIRST, "Q1-25-0379;;;;;", NEXT)[0] == [DATA] * 3


def test_columns_that_are_left_out_make_no_rows():
    uses = {**USES, "F": Use(Role.LEFT_OUT)}

    assert found(FIRST, ";;;;;looked at by day shift", NEXT, uses=uses)[0] == [
        DATA,
        TITLE,
        DATA,
    ]


def test_without_a_column_of_batches_nothing_is_joined():
    uses = {"D": Use(Role.RESULT, "worked-penetration")}

    assert found(FIRST, NEXT, uses=uses) == ([DATA, DATA], {})


def test_hidden_rows_are_data_and_are_told():
    sheet = sheet_of(f"{HEAD}\n{FIRST}\n{NEXT}", hidden=[1, 3])
    (block,) = blocks_of(sheet)

    assert roles(block, sheet, USES)[0] == [DATA, DATA]
    assert notes(block, sheet) == (
        "Hidden in the file, and read as the others: row 3.",
    )


def test_many_hidden_rows_are_counted():
    sheet = sheet_of("\n".join([HEAD, *[FIRST] * 15]), hidden=range(2, 17))
    (block,) = blocks_of(sheet)

    assert notes(block, sheet)[0].endswith("11 and 5 more.")


def test_nothing_hidden_is_not_told():
    sheet = sheet_of(f"{HEAD}\n{FIRST}")

    assert notes(blocks_of(sheet)[0], sheet) == ()


@pytest.mark.parametrize(
    "role", [it for it in RowRole if it not in (DATA, RowRole.HELD)]
)
def test_every_row_that_is_no_data_says_why(role):
    assert why(role, 7)


def test_a_row_that_belongs_to_another_names_it():
    assert "row 7" in why(JOINS, 7)
    assert why(DATA) == ""


def test_what_stands_beneath_a_summary_shown_as_one_belongs_to_nothing():
    rows = FIRST, "Mean;;;280;;", ";;;281;;"

    assert found(*rows, merged=[Merged(3, 1, 4, 1)]) == ([DATA, SUMMARY, DATA], {})
