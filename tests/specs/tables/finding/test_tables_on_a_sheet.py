"""Where the tables of a sheet lie: titles, heads of one or two lines, units, several tables beside and below each other."""

from specs.tables.finding.tables import blocks_of, fingerprint
from specs.tables.sheet import NUMBER, Column, Sheet
from tests.specs.tables.typed import sheet_of


def the_only(text, **more):
    (block,) = blocks_of(sheet_of(text, **more))
    return block


def where(block):
    return block.titles, block.heads, block.units_row, block.first, block.last


def test_a_title_above_the_head_is_no_data():
    block = the_only(
        "Quernstone laboratory;;\nBatch;Date;Pen W60\nQ1-25-0377;2025-12-03;280"
    )

    assert where(block) == ((1,), (2,), None, 3, 3)
    assert block.key == "Sheet1!A2:C3"
    assert block.headings == {"A": "Batch", "B": "Date", "C": "Pen W60"}


def test_lines_of_words_and_values_above_the_head_are_titles():
    block = the_only(
        "Plant;Quernstone;;\nPrinted;2026-02-10;;\n;;;\nBatch;Date;Pen;Drop pt\n"
        "Q1-25-0377;2025-12-03;280;201\nQ1-25-0378;2025-12-03;281;200"
    )

    assert where(block) == ((1, 2), (4,), None, 5, 6)


def test_units_below_the_head_are_read():
    block = the_only(
        "Batch;Pen;Drop pt;Oil sep\n;0,1 mm;[°C];% m/m\nQ1-25-0377;280;201;1,5"
    )

    assert where(block) == ((), (1,), 2, 3, 3)
    assert block.units == {"B": "0.1 mm", "C": "°C", "D": "mass %"}


def test_the_first_row_of_words_is_no_second_line_of_the_head():
    block = the_only("Name;City;Country\nGrinder Ltd;Milltown;DE\nStone AG;Kornau;AT")

    assert where(block) == ((), (1,), None, 2, 3)


def test_a_head_that_comes_again_after_a_gap_stays_in_the_table():
    head = "Batch;Date;Pen W60"
    row = "Q1-25-0377;2025-12-03;280"

    block = the_only(f"{head}\n{row}\n;;\n{head}\n{row}\n;;\nMean;;280")

    assert where(block) == ((), (1,), None, 2, 7)


def test_another_head_begins_another_table_below():
    first, second = blocks_of(
        sheet_of(
            "Batch;Date;Pen W60\nQ1-25-0377;2025-12-03;280\n;;\nOxidation;;\n"
            "Charge;Datum;Ox. 100h\nQ1-25-0377;2025-12-03;35"
        )
    )

    assert where(first) == ((), (1,), None, 2, 2)
    assert where(second) == ((4,), (5,), None, 6, 6)


def test_another_table_below_needs_no_gap_when_its_words_are_known():
    blocks = blocks_of(
        sheet_of(
            "Batch;Date;Pen W60\nQ1-25-0377;2025-12-03;280\n"
            "Batch;Date;Drop pt\nQ1-25-0377;2025-12-03;201"
        )
    )

    assert [it.heads for it in blocks] == [(1,), (3,)]


def test_another_table_below_with_words_that_nobody_knows_needs_a_gap():
    rows = "Colour;Shade\nred;1\n{}Sort;Mass\nblue;2"

    apart = blocks_of(sheet_of(rows.format(";\n")))
    close = blocks_of(sheet_of(rows.format("")))

    assert [it.heads for it in apart] == [(1,), (4,)]
    assert [it.heads for it in close] == [(1,)]


def test_words_of_a_summary_behind_a_gap_begin_no_table():
    block = the_only("Colour;Shade\nred;1\n;\nMean;Spread\n1;2")

    assert where(block) == ((), (1,), None, 2, 5)


def test_a_line_over_half_of_the_columns_is_no_head():
    block = the_only("Plant;Quernstone;;\n1;2;3;4\n5;6;7;8")

    assert where(block) == ((), (), None, 1, 3)


def test_tables_beside_each_other_with_words_that_nobody_knows_are_told_by_their_place():
    apart = blocks_of(sheet_of("Colour;Shade;;;\nred;1;;Sort;Mass\nblue;2;;a;3"))
    alike = blocks_of(sheet_of("Sort;Mass;;Sort;Mass\na;1;;b;2"))
    other = blocks_of(sheet_of("Colour;Shade;;Sort;Mass\nred;1;;a;3"))

    assert [it.letters for it in apart] == [("A", "B"), ("D", "E")]
    assert [it.letters for it in alike] == [("A", "B"), ("D", "E")]
    assert [it.letters for it in other] == [("A", "B", "D", "E")]


def test_tables_beside_each_other_are_two():
    left, right = blocks_of(
        sheet_of(
            "Batch;Date;Pen;;Charge;Datum;Tropfpunkt\n"
            "A-100;2025-01-01;280;;B-200;2025-01-01;190\nA-101;2025-01-01;280;;;;"
        )
    )

    assert (left.letters, left.last) == (("A", "B", "C"), 3)
    assert (right.letters, right.last) == (("E", "F", "G"), 2)


def test_tables_beside_each_other_without_a_gap_are_told_by_the_first_heading():
    blocks = blocks_of(sheet_of("Batch;Pen;Batch;Pen\nA-100;280;B-200;281"))

    assert [it.letters for it in blocks] == [("A", "B"), ("C", "D")]


def test_an_empty_column_within_a_table_does_not_part_it():
    block = the_only(
        "Batch;Pen;;Drop pt;Remark\nA-100;280;;190;fine\nA-101;281;;191;fine"
    )

    assert block.letters == ("A", "B", "D", "E")


def test_tables_beside_and_below_each_other_are_found():
    blocks = blocks_of(
        sheet_of(
            "Batch;Date;Pen;Drop pt;Remark\nA-100;2025-01-01;280;190;x\n;;;;\n"
            "Batch;Cu strip;;Batch;Ox. 100h\nA-100;1b;;A-100;35"
        )
    )

    assert [(it.heads, it.letters) for it in blocks] == [
        ((1,), ("A", "B", "C", "D", "E")),
        ((4,), ("A", "B")),
        ((4,), ("D", "E")),
    ]


def test_rows_without_a_head_are_shown_with_empty_headings():
    block = the_only("A-100;2025-01-01;280\nA-101;2025-01-02;281")

    assert where(block) == ((), (), None, 1, 2)
    assert block.headings == {"A": "", "B": "", "C": ""}


def test_a_head_without_rows_is_a_table_with_none():
    block = the_only("Batch;Date;Pen W60\n;;0,1 mm")

    assert (block.first, block.last) == (3, 2)
    assert block.units == {"C": "0.1 mm"}


def test_a_column_without_a_heading_is_kept():
    block = the_only("Batch;;Pen\nA-100;x;280")

    assert block.headings == {"A": "Batch", "B": "", "C": "Pen"}


def test_numbers_of_a_workbook_are_no_headings():
    sheet = sheet_of("Week;Runs\n1;2\n3;4", kinds={"A2": NUMBER, "B2": NUMBER})

    assert blocks_of(sheet)[0].heads == (1,)


def test_a_sheet_without_two_cells_side_by_side_has_no_table():
    assert blocks_of(sheet_of("a note\nanother")) == ()
    assert blocks_of(Sheet("Empty", ())) == ()
    assert blocks_of(Sheet("Blank", (Column("A", ["", " "], " t"),))) == ()


def test_the_fingerprint_is_of_the_words_alone():
    assert fingerprint(["Batch", "Pen  W60"]) == fingerprint(["BATCH.", " pen w60"])
    assert fingerprint(["Batch", "Pen"]) != fingerprint(["Pen", "Batch"])
    assert fingerprint(["ab", "c"]) != fingerprint(["a", "bc"])
    assert len(fingerprint([])) == 64


def test_the_same_layout_has_the_same_fingerprint_wherever_it_stands():
    above = the_only("Batch;Pen\nA-100;280")
    below = the_only("December;\n;\nBatch ;Pen\nA-101;281\nA-102;282")

    assert above.fingerprint == below.fingerprint
