"""How large a text may be: it is stopped at the bound, with the line that meets it, and quickly."""

import time

import pytest

from lims.sheets.reading import FileRefused, How, read


def why(content, **how):
    with pytest.raises(FileRefused) as refused:
        read(content, "a.csv", how=How(**how))
    return refused.value.sentence


def test_a_line_of_ten_megabytes_is_refused_with_its_number():
    content = b"Batch;Pen\nQ1;280\n" + b"1;" * (5 * 1024 * 1024) + b"\n"
    began = time.process_time()

    assert why(content).startswith("Line 3 has 10 485 761 characters; 100 000 a line")
    assert time.process_time() - began < 5


def test_many_columns_in_a_short_line_are_refused_with_its_number():
    assert "Line 2 has 501 columns; 500 columns" in why(b"a;b\n" + b"1;" * 500 + b"1\n")


def test_delimiters_without_cells_are_no_columns():
    content = b"Batch;Pen" + b";" * 16_000 + b"\nQ1;280" + b";" * 16_000 + b"\n"

    assert read(content, "a.csv").sheets[0].row(2) == ["Q1", "280"]


def test_more_than_a_million_lines_are_refused():
    assert "reaches to row 1 000 002; 1 000 000 rows" in why(b"a;b\n" * 1_000_002)


def test_one_wide_line_among_many_short_ones_does_not_fill_the_memory():
    content = b"a;b\n" * 20_000 + b"1;" * 400 + b"1\n"

    assert "spans 8 020 401 cells" in why(content)


def test_a_cell_with_an_essay_is_refused_with_its_address():
    content = b"Batch;Remark\nQ1;" + b"x" * 10_001 + b"\n"

    assert "Cell B2 holds 10 001 characters; 10 000 can be read" in why(content)


def test_a_cell_of_ten_thousand_signs_is_read():
    content = b"Batch;Remark\nQ1;" + b"x" * 10_000 + b"\n"

    assert len(read(content, "a.csv").sheets[0].text("B", 2)) == 10_000


@pytest.mark.parametrize("delimiter", ["", ";", " "])
def test_every_refusal_says_what_to_do(delimiter):
    assert "Delete what is not needed or split it" in why(
        b"a;b\n" * 1_000_002, delimiter=delimiter
    )
