"""The cells of a workbook as text, and what the file says each one is."""

import io

import openpyxl
import pytest

from lims.sheets.reading import FileRefused, read
from lims.sheets.reading.cells import number_text
from lims.sheets.reading.parts import sign_of
from tests.lims.sheets.reading import made

STYLES = (
    f'<styleSheet xmlns="{made.MAIN}"><numFmts>'
    '<numFmt numFmtId="164" formatCode="0.0&quot; psi&quot;"/></numFmts><cellXfs>'
    "{}</cellXfs></styleSheet>"
)
FORMS = {"plain": 0, "per cent": 10, "day": 14, "time": 20, "moment": 22, "hours": 46}


def styled():
    """Parts of a workbook whose styles are FORMS in their order, then psi."""
    forms = "".join(f'<xf numFmtId="{number}"/>' for number in [*FORMS.values(), 164])
    ties = [
        ("r1", "worksheet", "worksheets/sheet1.xml"),
        ("r2", "styles", "styles.xml"),
    ]
    return {
        "xl/styles.xml": STYLES.format(forms),
        "xl/_rels/workbook.xml.rels": made.ties(*ties),
    }


def cells(*told, **more):
    """Text and kind of each cell of one row."""
    (sheet,) = read(made.book(f'<row r="1">{"".join(told)}</row>', **more), "a").sheets
    return [(it.texts[0], it.kinds[0]) for it in sheet.columns]


def cell(value, address="A1", form=None, kind=""):
    style = "" if form is None else f' s="{form}"'
    told = f' t="{kind}"' if kind else ""
    return f'<c r="{address}"{style}{told}><v>{value}</v></c>'


def in_form(value, form, **parts):
    place = [*FORMS, "psi"].index(form)
    return cells(cell(value, form=place), parts=styled() | parts)[0]


@pytest.mark.parametrize(
    ("stored", "text"),
    [
        ("280", "280"),
        ("280.5", "280.5"),
        ("-5.0", "-5"),
        ("-0", "0"),
        ("0.30000000000000004", "0.3"),
        ("280.16666666666669", "280.166666666667"),
        ("1E-007", "0.0000001"),
        ("1.5E+20", "150000000000000000000"),
        ("0.40", "0.4"),
    ],
)
def test_a_number_is_written_plainly(stored, text):
    assert cells(cell(stored)) == [(text, "n")]


@pytest.mark.parametrize("stored", ["NaN", "inf", "-inf"])
def test_what_is_no_number_in_a_number_cell_is_a_fault(stored):
    assert cells(cell(stored))[0][1] == "e"


def test_every_number_has_fifteen_figures_at_most():
    assert number_text(1 / 3) == "0.333333333333333"


def test_a_text_keeps_what_stands_in_it():
    kept = '<c r="A1" t="inlineStr"><is><t xml:space="preserve"> 2 81 </t></is></c>'

    assert cells(kept, made.text_cell("B1", "1,5")) == [(" 2 81 ", "t"), ("1,5", "t")]


def test_a_number_that_was_stored_as_text_stays_text():
    assert cells(cell("0378", kind="str")) == [("0378", "t")]


def test_a_cell_of_blanks_is_empty():
    assert cells(made.text_cell("A1", "   "), cell("1", "B1"))[0] == ("", " ")


def test_yes_and_no_are_words():
    assert cells(cell("1", kind="b"), cell("0", "B1", kind="b")) == [
        ("yes", "b"),
        ("no", "b"),
    ]


def test_a_fault_stands_as_it_is_shown():
    assert cells(cell("#N/A", kind="e"), cell("#DIV/0!", "B1", kind="e")) == [
        ("#N/A", "e"),
        ("#DIV/0!", "e"),
    ]


@pytest.mark.parametrize(
    ("stored", "form", "expected"),
    [
        ("46009", "day", ("2025-12-18", "d")),
        ("46009", "moment", ("2025-12-18", "d")),
        ("46009.3125", "moment", ("2025-12-18 07:30:00", "m")),
        ("46009.302083333336", "moment", ("2025-12-18 07:15:00", "m")),
        ("46009.99999999999", "day", ("2025-12-19", "d")),
        ("1.25", "time", ("30:00:00", "t")),
        ("1", "time", ("24:00:00", "t")),
        ("46009.3125", "time", ("2025-12-18 07:30:00", "m")),
        ("0.302083333333333", "time", ("07:15:00", "t")),
        ("4.1666666666666696", "hours", ("100:00:00", "t")),
        ("0.00000578703703", "hours", ("00:00:00.500", "t")),
    ],
)
def test_days_moments_and_times(stored, form, expected):
    assert in_form(stored, form) == expected


def test_a_workbook_that_counts_from_1904_gives_the_same_day():
    before = '<workbookPr date1904="1"/>'
    book = {"xl/workbook.xml": made.workbook(before=before)}

    assert in_form("44547", "day", **book) == ("2025-12-18", "d")


def test_a_clock_that_runs_past_midnight_counts_on_from_either_epoch():
    before = '<workbookPr date1904="1"/>'
    book = {"xl/workbook.xml": made.workbook(before=before)}

    assert in_form("1.25", "time", **book) == ("30:00:00", "t")


def test_a_number_that_is_no_day_says_so():
    with pytest.raises(FileRefused, match="formatted as a date and holds a number too"):
        in_form("99999999999", "hours")


@pytest.mark.parametrize("told", ["1", "true"])
def test_the_sheet_says_from_when_its_workbook_counts(told):
    before = f'<workbookPr date1904="{told}"/>'
    parts = {"xl/workbook.xml": made.workbook(before=before)}

    assert read(made.book(parts=parts), "a").sheets[0].is_1904
    assert not read(made.book(), "a").sheets[0].is_1904


def test_a_share_is_read_as_it_is_shown():
    assert in_form("0.032", "per cent") == ("3.2 %", "t")
    assert in_form("1", "per cent") == ("100 %", "t")


def test_a_unit_that_the_number_form_adds_is_read_with_the_number():
    assert in_form("5.5", "psi") == ("5.5 psi", "t")


@pytest.mark.parametrize(
    ("form", "sign"),
    [
        ("0.00", ""),
        ("0.0%", "%"),
        ('0.0" kPa"', "kPa"),
        ('#,##0.0\\ "mm";-0', "mm"),
        ("[Red]0%", "%"),
        ("0\\ %", "%"),
        ('0.0" h"', "h"),
        ('"about "0', ""),
        ("dd.mm.yyyy", ""),
        ("hh:mm:ss", "h:mm"),
        ("h:mm AM/PM", "h:mm"),
        ("[h]:mm", ""),
        ("dd/mm hh:mm", ""),
        ("General", ""),
    ],
)
def test_which_sign_a_number_form_adds(form, sign):
    assert sign_of(form) == sign


def test_a_text_that_is_broken_in_parts_is_one_text():
    rich = '<c r="A1" t="inlineStr"><is><r><t>1</t></r><r><t>b</t></r></is></c>'

    assert cells(rich) == [("1b", "t")]


def test_a_cell_with_an_essay_is_refused_with_its_address():
    content = made.book(f'<row r="1">{made.text_cell("B1", "x" * 10_001)}</row>')

    with pytest.raises(FileRefused, match="Cell B1 holds 10 001 characters"):
        read(content, "a.xlsx")


def test_what_another_writer_made_is_read_alike():
    book = openpyxl.Workbook()
    book.active.append(["Batch", 280.5, True])
    out = io.BytesIO()
    book.save(out)
    (sheet,) = read(out.getvalue(), "a.xlsx").sheets

    assert [(it.texts[0], it.kinds[0]) for it in sheet.columns] == [
        ("Batch", "t"),
        ("280.5", "n"),
        ("yes", "b"),
    ]
