"""Heads of two lines: what the upper one reaches over, figures in the lower one, heads that come again."""

from specs.tables.sheet import Merged
from tests.specs.tables.finding.test_tables_on_a_sheet import the_only, where


def test_a_head_of_two_lines_reads_on_downwards():
    block = the_only(
        "Batch;Date;Penetration;;Oil sep (%)\n;;W60;100k;\n;;0,1 mm;0,1 mm;\n"
        "Q1-25-0377;2025-12-03;280;290;1,5"
    )

    assert where(block) == ((), (1, 2), 3, 4, 4)
    assert block.headings == {
        "A": "Batch",
        "B": "Date",
        "C": "Penetration W60",
        "D": "Penetration 100k",
        "E": "Oil sep (%)",
    }
    assert block.units["E"] == "%"


def test_cells_shown_as_one_head_all_their_columns_and_no_others():
    block = the_only(
        "Batch;Pen;;;Rest\n;W60;100k;;x\nQ1-25-0377;280;290;5;1",
        merged=[Merged(1, 2, 1, 3)],
    )

    assert list(block.headings.values()) == [
        "Batch",
        "Pen W60",
        "Pen 100k",
        "",
        "Rest x",
    ]


def test_figures_beneath_a_heading_over_several_columns_are_its_second_line():
    block = the_only(
        "Batch;Date;Penetration;;;Drop pt\n;;unworked;worked 60;100 000;\n"
        ";;0.1 mm;0.1 mm;0.1 mm;°C\nQ1-25-0377;2025-12-03;270;280;300;198",
        merged=[Merged(1, 3, 1, 5)],
    )

    assert where(block) == ((), (1, 2), 3, 4, 4)
    assert [block.headings[it] for it in "CDE"] == [
        "Penetration unworked",
        "Penetration worked 60",
        "Penetration 100 000",
    ]


def test_figures_alone_may_be_the_second_line():
    block = the_only(
        "Batch;Date;Penetration;;;Drop pt\n;;0;60;100 000;\n"
        "Q1-25-0377;2025-12-03;270;280;300;198\nQ1-25-0378;2025-12-04;271;280;301;199"
    )

    assert where(block) == ((), (1, 2), None, 3, 4)
    assert [block.headings[it] for it in "CDE"] == [
        "Penetration 0",
        "Penetration 60",
        "Penetration 100 000",
    ]


def test_the_first_row_without_a_batch_is_no_second_line():
    block = the_only(
        "Batch;Date;Pen;;Drop pt\n;;280;first cup;198\nQ1-25-0378;2025-12-04;271;;199"
    )

    assert where(block) == ((), (1,), None, 2, 3)


def test_columns_behind_an_empty_one_share_a_head_that_has_one_line_more_beside_them():
    block = the_only(
        "Batch;Date;Pen;;;Ox. 100 h;Cu strip\n;;W60;100k;;;\n;;0.1 mm;0.1 mm;;psi;\n"
        "Q1-25-0377;2025-12-03;280;300;;5.5;1b\nQ1-25-0378;2025-12-04;281;301;;5.6;1a"
    )

    assert where(block) == ((), (1, 2), 3, 4, 5)
    assert block.headings["F"] == "Ox. 100 h"
    assert block.units["F"] == "psi"


TWO_LINES = "Date;Batch;;;Worked;Unworked\ntested;no.;Grease;Kettle;pen.;pen.\n"


def test_a_head_of_two_lines_that_comes_again_stays_in_the_table():
    rows = "2025-12-03;Q1-25-0377;LX2;K1;280;270\n2025-12-04;Q1-25-0378;LX2;K1;281;271"

    block = the_only(f"{TWO_LINES}{rows}\n;;;;;\n{TWO_LINES}{rows}")

    assert where(block) == ((), (1, 2), None, 3, 9)


def test_a_heading_does_not_reach_over_one_that_speaks_for_itself():
    block = the_only(f"{TWO_LINES}2025-12-03;Q1-25-0377;LX2;K1;280;270")

    assert list(block.headings.values()) == [
        "Date tested",
        "Batch no.",
        "Grease",
        "Kettle",
        "Worked pen.",
        "Unworked pen.",
    ]
