"""Columns made with blanks are read where the gaps stand still, and refused where a value could slip into the next column."""

import pytest

from lims.sheets.reading import FileRefused, How, read

STEADY = """\
Pen book of the mill laboratory
Batch       Date        Pen    Remark
Q1-25-0377  03/12/2025  280,5  2nd cup
Q1-25-0378  04/12/2025         too soft
Q1-25-0379  05/12/2025  281
"""
LOGGER = """\
07:00:00 101.3 25.0
07:01:00  99.8 25.1
07:02:00 101.1 25.0
07:03:00 100.9  9.9
"""
WANDERING = """\
Batch       Date     Pen
Q1-25-0377 03/12/2025  280
Q1-25-378  4/12/2025 sieved twice  281
Q1-379     25/12/2025  282   soft
Q1-25-0380    1/1/2026 283
"""


def table(text, **how):
    workbook = read(text.encode(), "a.txt", how=How(**how))
    (sheet,) = workbook.sheets
    return [sheet.row(number) for number in range(1, sheet.height + 1)], workbook


def test_a_value_that_is_missing_leaves_its_column_empty():
    rows, workbook = table(STEADY)

    assert rows[2:] == [
        ["Q1-25-0377", "03/12/2025", "280,5", "2nd cup"],
        ["Q1-25-0378", "04/12/2025", "", "too soft"],
        ["Q1-25-0379", "05/12/2025", "281", ""],
    ]
    assert workbook.how.delimiter == " "


def test_a_title_above_the_columns_stands_whole():
    rows, _ = table(STEADY)

    assert rows[0] == ["Pen book of the mill laboratory", "", "", ""]
    assert rows[1] == ["Batch", "Date", "Pen", "Remark"]


def test_that_the_columns_were_told_by_blanks_is_said():
    assert "told by the blanks" in table(STEADY)[1].notes[0]


def test_single_blanks_divide_what_a_logger_wrote():
    rows, _ = table(LOGGER)

    assert rows[1] == ["07:01:00", "99.8", "25.1"]
    assert rows[3] == ["07:03:00", "100.9", "9.9"]


def test_columns_that_wander_are_refused():
    with pytest.raises(FileRefused, match="no gap stands in one place"):
        table(WANDERING)


def test_blanks_that_were_chosen_and_do_not_divide_are_refused():
    with pytest.raises(FileRefused, match="no gap stands in one place"):
        table("Batch;Pen\nQ1;280\nQ2;281\n", delimiter=" ")


def test_sentences_are_one_column():
    rows, workbook = table("Remark\nsoft at the rim\nas the last one\n")

    assert rows[1] == ["soft at the rim"]
    assert workbook.how.delimiter == ""


def test_a_long_table_keeps_to_its_gaps_to_the_end():
    text = "".join(f"Q1-{number:05}  {number % 300:3}\n" for number in range(50_000))
    rows, _ = table(text)

    assert rows[-1] == ["Q1-49999", "199"]
    with pytest.raises(FileRefused, match="no gap"):
        table(f"{text}Q1-500000000 1\n")
