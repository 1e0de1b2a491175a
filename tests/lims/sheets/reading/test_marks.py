"""What the values of a workbook do not tell: formulas, places, merged and hidden cells, comments, how far the cells reach."""

import pytest

from lims.sheets.reading import FileRefused, read
from specs.tables.sheet import Merged
from tests.lims.sheets.reading import made
from tests.lims.sheets.reading.made import text_cell


def only(rows=made.ONE_ROW, **more):
    workbook = read(made.book(rows, **more), "a.xlsx")
    (sheet,) = workbook.sheets
    return sheet, workbook.notes


def formula(address, form, value="", more="", kind=""):
    told = f' t="{kind}"' if kind else ""
    stored = f"<v>{value}</v>" if value else ""
    return f'<c r="{address}"{told}><f{more}>{form}</f>{stored}</c>'


def test_rows_and_columns_above_and_left_of_the_table_are_counted():
    sheet, _ = only(f'<row r="3">{text_cell("C3", "Batch")}</row>')

    assert (sheet.text("C", 3), sheet.height) == ("Batch", 3)
    assert [it.letter for it in sheet.columns] == ["A", "B", "C"]


def test_a_formula_is_told_beside_the_value_that_was_stored_with_it():
    sheet, notes = only(f'<row r="1">{formula("A1", "B1*10", "280.5")}</row>')

    assert (sheet.text("A", 1), sheet.kind("A", 1)) == ("280.5", "f")
    assert notes == ("Sheet “Pen” has 1 cell with a formula.",)


def test_a_formula_that_was_never_worked_out_is_not_an_empty_cell():
    sheet, _ = only(f'<row r="1">{formula("C1", "A1+B1")}</row>')

    assert (sheet.text("C", 1), sheet.kind("C", 1)) == ("", "f")


def test_a_formula_that_gives_a_text_or_a_fault_is_a_formula():
    text = formula("A1", "C1&amp;D1", "Q1-25-0377", kind="str")
    fault = formula("B1", "1/0", "#DIV/0!", kind="e")
    sheet, _ = only(f'<row r="1">{text}{fault}</row>')

    assert sheet.row(1) == ["Q1-25-0377", "#DIV/0!"]
    assert [it.kinds for it in sheet.columns] == ["f", "f"]


def test_each_cell_of_a_shared_formula_is_a_formula():
    first = formula("A1", "B1*2", "2", ' t="shared" ref="A1:A2" si="0"')
    second = formula("A2", "", "4", ' t="shared" si="0"')
    sheet, _ = only(f'<row r="1">{first}</row><row r="2">{second}</row>')

    assert sheet.columns[0].kinds == "ff"


def test_every_cell_that_an_array_formula_fills_is_a_formula():
    first = formula("A1", "B1:B2*2", "2", ' t="array" ref="A1:A2"')
    sheet, _ = only(
        f'<row r="1">{first}</row><row r="2"><c r="A2"><v>4</v></c><c r="B2"><v>1</v></c></row>'
    )

    assert [it.kinds for it in sheet.columns] == ["ff", " n"]


@pytest.mark.parametrize("plain", ["TRUE()", "FALSE()", "#N/A"])
def test_a_plain_word_that_a_program_wrote_as_a_formula_is_none(plain):
    kind, value = ("e", "#N/A") if plain[0] == "#" else ("b", "1")
    sheet, _ = only(f'<row r="1">{formula("A1", plain, value, kind=kind)}</row>')

    assert sheet.columns[0].kinds == ("e" if plain[0] == "#" else "b")


def test_a_prefix_before_every_element_changes_nothing():
    content = (
        f'<x:worksheet xmlns:x="{made.MAIN}"><x:sheetData><x:row r="1">'
        '<x:c r="A1"><x:f>1+1</x:f><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>'
    )
    sheet, _ = only(parts={made.SHEET: content})

    assert (sheet.text("A", 1), sheet.kind("A", 1)) == ("2", "f")


def test_cells_without_an_address_stand_beside_one_another():
    sheet, _ = only(
        "<row><c><v>1</v></c><c><f>A1</f><v>1</v></c></row>"
        "<row><c><v>2</v></c><c><v>3</v></c></row>"
    )

    assert [it.kinds for it in sheet.columns] == ["nn", "fn"]
    assert sheet.row(2) == ["2", "3"]


def test_a_sheet_in_utf_16_is_looked_through_too():
    text = made.sheet(f'<row r="1">{formula("A1", "B1", "2")}</row>')
    content = f'<?xml version="1.0" encoding="UTF-16"?>{text}'.encode("utf-16")

    try:
        sheet, _ = only(parts={made.SHEET: content})
    except FileRefused as refused:
        assert "cannot be read" in refused.sentence  # noqa: PT017 - either will do
    else:
        assert sheet.kind("A", 1) == "f"


def test_merged_cells_are_told():
    after = '<mergeCells count="1"><mergeCell ref="A1:A3"/></mergeCells>'
    sheet, _ = only(after=after)

    assert sheet.merged == (Merged(1, 1, 3, 1),)


def test_hidden_rows_are_read_and_told():
    sheet, notes = only(
        f'<row r="1">{text_cell("A1", "Batch")}</row>'
        f'<row r="2" hidden="1">{text_cell("A2", "Q1")}</row>'
        f'<row r="3" hidden="true">{text_cell("A3", "Q2")}</row>'
        f'<row r="4" hidden="0">{text_cell("A4", "Q3")}</row>'
        '<row r="9" hidden="1"/>'
    )

    assert sheet.columns[0].texts == ["Batch", "Q1", "Q2", "Q3"]
    assert sheet.hidden_rows == {2, 3}
    assert notes == ("Sheet “Pen” has 2 hidden rows, read too.",)


def test_hidden_columns_are_told():
    _, notes = only(before='<cols><col min="2" max="2" hidden="1"/></cols>')

    assert notes == ("Sheet “Pen” has 1 hidden column (B), read too.",)


def test_hidden_columns_beside_the_table_hide_nothing():
    _, notes = only(before='<cols><col min="3" max="16384" hidden="1"/></cols>')

    assert notes == ()


def test_comments_are_kept_by_their_cell():
    comments = (
        f'<comments xmlns="{made.MAIN}"><authors><author/></authors><commentList>'
        '<comment ref="B1" authorId="0"><text><r><t>re</t></r><r><t>test</t></r></text>'
        "</comment></commentList></comments>"
    )
    ties = made.ties(("r1", "comments", "../comments1.xml"))
    sheet, notes = only(
        parts={
            "xl/comments1.xml": comments,
            "xl/worksheets/_rels/sheet1.xml.rels": ties,
        }
    )

    assert sheet.notes == {"B1": "retest"}
    assert notes == ("Sheet “Pen” has 1 comment, kept with its cell.",)


def test_hidden_sheets_are_read_and_told():
    sheets = '<sheet name="Old" sheetId="1" state="hidden" r:id="r1"/>'
    sheet, notes = only(parts={"xl/workbook.xml": made.workbook(sheets)})

    assert sheet.name == "Old"
    assert notes == ("Sheet “Old” is hidden; it was read too.",)


def test_empty_sheets_are_left_out():
    sheets = (
        '<sheet name="Pen" sheetId="1" r:id="r1"/>'
        '<sheet name="Empty" sheetId="2" r:id="r2"/>'
    )
    ties = made.ties(
        ("r1", "worksheet", "worksheets/sheet1.xml"),
        ("r2", "worksheet", "worksheets/sheet2.xml"),
    )
    sheet, _ = only(
        parts={
            "xl/workbook.xml": made.workbook(sheets),
            "xl/_rels/workbook.xml.rels": ties,
            "xl/worksheets/sheet2.xml": made.sheet(""),
        }
    )

    assert sheet.name == "Pen"


def test_cells_that_only_have_a_form_do_not_make_the_sheet_larger():
    sheet, _ = only(f'{made.ONE_ROW}<row r="1048576"><c r="XFD1048576" s="0"/></row>')

    assert (sheet.height, len(sheet.columns)) == (1, 2)


@pytest.mark.parametrize(
    ("address", "says"),
    [
        ("A1048576", "reaches to row 1 048 576; 1 000 000 rows can be read"),
        ("XFD2", "has 16 384 columns; 500 columns can be read"),
        ("SF999999", "spans 499 999 500 cells"),
    ],
)
def test_a_stray_cell_far_away_is_refused_before_the_span_is_filled(address, says):
    row = address.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    rows = f'{made.ONE_ROW}<row r="{row}"><c r="{address}"><v>1</v></c></row>'

    with pytest.raises(FileRefused, match=says):
        only(rows)


@pytest.mark.parametrize(
    "rows",
    [
        '<row r="1"><c r="A1"><v>1</v></row>',
        '<row r="x"><c r="A1"><v>1</v></c></row>',
        '<row r="1"><c r="1A"><v>1</v></c></row>',
        '<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">1</f><v>1</v></c></row>',
    ],
)
def test_a_sheet_that_breaks_its_own_form_is_refused(rows):
    with pytest.raises(FileRefused, match="sheet “Pen” cannot be read"):
        only(rows)


def test_the_strict_form_of_the_standard_is_read_alike():
    strict = "http://purl.oclc.org/ooxml/"
    parts = {
        name: text.replace(made.MAIN, f"{strict}spreadsheetml/main").replace(
            made.TIES, f"{strict}officeDocument/relationships"
        )
        for name, text in made.parts().items()
    }

    assert read(made.zipped(parts), "a.xlsx") == read(made.book(), "a.xlsx")


def test_targets_may_be_written_from_the_root_of_the_workbook():
    ties = made.ties(("r1", "worksheet", "/xl/worksheets/sheet1.xml"))
    parts = {"xl/_rels/workbook.xml.rels": ties}

    assert read(made.book(parts=parts), "a.xlsx") == read(made.book(), "a.xlsx")


def test_a_stated_size_that_is_wrong_does_not_matter():
    before = '<dimension ref="A1:XFD1048576"/>'

    assert read(made.book(before=before), "a") == read(made.book(), "a")


TWO_SHEETS = (
    '<sheet name="Pen" sheetId="1" r:id="r1"/><sheet name="{}" sheetId="2" r:id="r2"/>'
)


def with_second_sheet(name, kind="worksheet", target="worksheets/sheet2.xml", **more):
    ties = [("r1", "worksheet", "worksheets/sheet1.xml"), ("r2", kind, target)]
    parts = {
        "xl/workbook.xml": made.workbook(TWO_SHEETS.format(name)),
        "xl/_rels/workbook.xml.rels": made.ties(*ties),
    }
    return made.book(parts=parts | more)


def test_two_sheets_are_read_in_their_order():
    second = {"xl/worksheets/sheet2.xml": made.sheet(made.ONE_ROW)}
    content = with_second_sheet("Ox &amp; Cu", **second)

    assert [it.name for it in read(content, "a").sheets] == ["Pen", "Ox & Cu"]


def test_a_sheet_that_is_only_a_chart_is_passed_over():
    chart = {"xl/chartsheets/sheet1.xml": "<chartsheet/>"}
    content = with_second_sheet(
        "Chart", "chartsheet", "chartsheets/sheet1.xml", **chart
    )

    assert [it.name for it in read(content, "a").sheets] == ["Pen"]


def test_a_sheet_that_is_missing_is_never_left_out_in_silence():
    with pytest.raises(FileRefused, match="sheet “Ox” is missing"):
        read(with_second_sheet("Ox"), "a")


def test_two_sheets_of_one_name_are_refused():
    second = {"xl/worksheets/sheet2.xml": made.sheet(made.ONE_ROW)}

    with pytest.raises(FileRefused, match="two of its sheets have one name"):
        read(with_second_sheet("Pen", **second), "a")
