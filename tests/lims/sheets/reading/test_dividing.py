"""Which sign divides the columns of a text, whatever stands in the cells."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lims.sheets.exports import Column, csv_lines
from lims.sheets.reading import DELIMITERS, FileRefused, How, read

ROWS = [
    ["Batch", "Date", "Pen", "Remark"],
    ["Q1-25-0377", "03/12/2025", "280.5", "ok"],
    ["Q1-25-0378", "04/12/2025", "", "soft"],
    ["Q1-25-0379", "05/12/2025", "281", ""],
]


def table(content, **how):
    if isinstance(content, str):
        content = content.encode()
    workbook = read(content, "penbook.csv", how=How(**how))
    (sheet,) = workbook.sheets
    rows = [sheet.row(number) for number in range(1, sheet.height + 1)]
    return rows, workbook.how.delimiter, workbook.notes


@pytest.mark.parametrize("sign", [";", ",", "\t", "|"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("last", [True, False])
def test_every_delimiter_and_every_end_of_line(sign, end, last):
    text = end.join(sign.join(row) for row in ROWS) + (end if last else "")

    assert table(text) == (ROWS, sign, ())


def test_decimal_commas_do_not_divide():
    text = "Batch;Pen;Ox\nQ1;280,5;5,5\nQ2;281,0;6,5\nQ3;279,5;7,5\n"

    assert table(text)[0][1] == ["Q1", "280,5", "5,5"]


def test_decimal_commas_do_not_divide_where_every_line_has_as_many():
    assert table("1,5;2,5;3,5\n4,5;5,5;6,5\n")[1] == ";"


def test_one_column_of_decimal_commas_is_one_column():
    assert table("Pen\n280,5\n281,0\n")[0] == [["Pen"], ["280,5"], ["281,0"]]


def test_commas_between_more_than_two_whole_numbers_divide():
    assert table("1,2,3\n4,5,6\n")[1] == ","


def test_one_column_needs_no_delimiter():
    assert table("Batch\nQ1-25-0377\nQ1-25-0378\n") == (
        [["Batch"], ["Q1-25-0377"], ["Q1-25-0378"]],
        "",
        (),
    )


def test_titles_above_the_table_do_not_hide_the_delimiter():
    text = "Pen book, 2025/26, line 1\n\nBatch;Pen\n" + "Q1;280\n" * 5
    rows, sign, _ = table(text)

    assert sign == ";"
    assert rows[:3] == [["Pen book, 2025/26, line 1", ""], ["", ""], ["Batch", "Pen"]]


def test_blank_lines_keep_their_row():
    assert table("Batch;Pen\n\nQ1;280\n")[0] == [
        ["Batch", "Pen"],
        ["", ""],
        ["Q1", "280"],
    ]


def test_rows_of_unequal_length_are_filled_up():
    assert table("Batch;Pen;Ox\nQ1\nQ2;281\nQ3;1;2\nQ4;1;2\n")[0][1] == ["Q1", "", ""]


def test_a_chosen_delimiter_is_used():
    rows, sign, _ = table("Batch;Pen, worked\nQ1;280,5\n", delimiter=",")

    assert (rows[0], sign) == (["Batch;Pen", " worked"], ",")


def test_a_delimiter_that_is_not_offered_is_refused():
    assert "~" not in DELIMITERS
    with pytest.raises(FileRefused, match="Choose one of the delimiters"):
        table("a~b\n", delimiter="~")


def test_a_first_line_that_names_the_delimiter_is_no_row_of_the_table():
    rows, sign, _ = table("sep=|\nBatch|Pen\nQ1|280\n")

    assert (rows[0], rows[1], sign) == (["", ""], ["Batch", "Pen"], "|")


def test_quoted_cells_hold_delimiters_quotes_and_line_breaks():
    rows, _, notes = table(
        'Batch,Remark,Pen\nQ1,"soft, ""2nd cup""\r\nasked",280\nQ2,,281\n'
    )

    assert rows[1] == ["Q1", 'soft, "2nd cup"\nasked', "280"]
    assert rows[2] == ["Q2", "", "281"]
    (note,) = notes
    assert note.startswith("Cells that run over several lines: 1, the first is B2.")


def test_inches_and_quotes_inside_a_cell_stay():
    assert table('Batch;Pipe\nQ1;1/2" bore\nQ2;2" bore\n')[0][1] == ["Q1", '1/2" bore']


@pytest.mark.parametrize("lines", [1, 100, 40_000])
def test_a_quotation_mark_that_is_never_closed_is_refused_with_its_line(lines):
    with pytest.raises(FileRefused, match="begins a cell in line 2 or just below"):
        table('Batch;Remark\nQ1;"soft\n' + "Q2;281\n" * lines)


def test_a_text_that_our_own_export_quoted_is_as_it_was():
    rows, _, _ = table("Remark,Pen\n'=1+1,280\n'-5 mm,281\n'quoted,282\n")

    assert [row[0] for row in rows] == ["Remark", "=1+1", "-5 mm", "'quoted"]


@given(st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"])), min_size=1))
def test_what_our_own_export_writes_reads_back_as_it_was(texts):
    texts = [text if text.strip() else "x" for text in texts]
    lines = csv_lines(
        [Column("Remark"), Column("Pen", "mm/10")], [[it, 1] for it in texts]
    )
    (sheet,) = read("".join(lines).encode(), "a.csv").sheets

    assert list(sheet.columns[0].texts) == ["Remark", "", *texts]


def test_a_cell_of_blanks_is_empty():
    (sheet,) = read(b"Batch;Pen\nQ1;  \nQ2;281\n", "a.csv").sheets

    assert sheet.columns[1].texts == ["Pen", "", "281"]
    assert sheet.columns[1].kinds == "t t"


def test_blanks_around_a_text_stay():
    assert table("Batch;Pen\nQ1; 2 81 \n")[0][1] == ["Q1", " 2 81 "]


def test_the_sheet_is_named_after_the_file():
    assert read(b"a;b\n", "pen book.csv").sheets[0].name == "pen book"
    assert read(b"a;b\n", ".csv").sheets[0].name


def test_empty_columns_at_the_end_are_left_out():
    assert table("Batch;Pen;;;\nQ1;280;;;\n")[0] == [["Batch", "Pen"], ["Q1", "280"]]
