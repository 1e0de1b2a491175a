"""A pen book saved by another program, in every form that it writes: read alike, or refused with what to do. These tests drive LibreOffice and are left out where it is not installed."""

import datetime as dt
import shutil
import subprocess

import openpyxl
import pytest
from openpyxl.comments import Comment
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from lims.sheets.reading import FileRefused, How, read

PROGRAM = shutil.which("soffice")
pytestmark = pytest.mark.skipif(PROGRAM is None, reason="LibreOffice is not installed")

DAY, MOMENT = dt.date(2025, 12, 18), dt.datetime(2025, 12, 18, 7, 30)  # noqa: DTZ001
ROWS = [
    ["Batch", "Date", "Sampled", "Pen, worked", "Öl %", "Twice", "Clean", "Remark"],
    ["Q1-25-0377", DAY, MOMENT, 280.5, 0.032, "=D2*2", True, 'soft, "2nd cup"'],
    ["0378", DAY, None, 281, 0.04, "=1/0", False, "≤ 5 µm"],
]
READ = [
    ROWS[0],
    [
        *("Q1-25-0377", "2025-12-18", "2025-12-18 07:30:00", "280.5", "3.2 %"),
        *("561", "yes", 'soft, "2nd cup"'),
    ],
    ["0378", "2025-12-18", "", "281", "4 %", "#DIV/0!", "no", "≤ 5 µm"],
]
TEXT_FORMS = {  # its own numbers: delimiter, quote, encoding
    "semicolons": ("59,34,76", ";", "utf-8"),
    "commas": ("44,34,76", ",", "utf-8"),
    "tabs": ("9,34,76", "\t", "utf-8"),
    "bars in 16 bits": ("124,34,65535", "|", "utf-16-le"),
}


@pytest.fixture(scope="module")
def convert(tmp_path_factory):
    """Have a file saved in another form; the program's settings are made for these tests alone."""
    folder = tmp_path_factory.mktemp("saved")
    saved = {}

    def once(path, form, ending):
        if (path, form) not in saved:
            saved[path, form] = run(path, form, folder / str(len(saved)), ending)
        return saved[path, form]

    def run(path, form, out, ending):
        subprocess.run(  # noqa: S603
            [
                PROGRAM,
                f"-env:UserInstallation={(folder / 'settings').as_uri()}",
                "--headless",
                *("--convert-to", f"{ending}:{form}"),
                *("--outdir", str(out), str(path)),
            ],
            check=True,
            capture_output=True,
            timeout=120,
        )
        (written,) = out.iterdir()
        return written.read_bytes()

    return once


def pen_book(path, *, epoch=None):
    book = openpyxl.Workbook()
    if epoch:
        book.epoch = epoch
    sheet = book.active
    sheet.title = "Pen"
    for row in ROWS:
        sheet.append(row)
    for row in (2, 3):
        sheet.cell(row, 2).number_format = "dd/mm/yyyy"
        sheet.cell(row, 5).number_format = "0.0%"
    sheet["D2"].comment = Comment("second cup", "tech-a")
    sheet.row_dimensions[3].hidden = True
    book.save(path)
    return path


@pytest.fixture(scope="module", params=[None, CALENDAR_MAC_1904], ids=["1900", "1904"])
def book(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("made")
    return pen_book(folder / "pen.xlsx", epoch=request.param)


@pytest.fixture(scope="module")
def plain(tmp_path_factory):
    return pen_book(tmp_path_factory.mktemp("made") / "pen.xlsx")


def rows_of(sheet):
    return [sheet.row(number) for number in range(1, sheet.height + 1)]


def test_a_workbook_that_it_saved_is_read_cell_by_cell(convert, book):
    workbook = read(convert(book, "Calc MS Excel 2007 XML", "xlsx"), "pen.xlsx")
    (sheet,) = workbook.sheets

    assert rows_of(sheet) == READ
    assert [it.kinds for it in sheet.columns] == [
        *("ttt", "tdd", "tm ", "tnn", "ttt", "tff", "tbb", "ttt"),
    ]


def test_what_else_it_saved_is_told(convert, book):
    workbook = read(convert(book, "Calc MS Excel 2007 XML", "xlsx"), "pen.xlsx")
    (sheet,) = workbook.sheets

    assert sheet.hidden_rows == {3}
    assert "second cup" in sheet.notes["D2"]
    assert "Sheet “Pen” has 1 hidden row, read too." in workbook.notes


def test_it_keeps_from_when_the_days_are_counted(convert, book):
    made = openpyxl.load_workbook(book).epoch == CALENDAR_MAC_1904
    (sheet,) = read(convert(book, "Calc MS Excel 2007 XML", "xlsx"), "a").sheets

    assert sheet.is_1904 is made


@pytest.mark.parametrize("form", TEXT_FORMS)
def test_a_text_that_it_saved_is_read_with_what_it_showed(convert, plain, form):
    numbers, delimiter, encoding = TEXT_FORMS[form]
    content = convert(plain, f"Text - txt - csv (StarCalc):{numbers},1", "csv")
    workbook = read(content, "pen.csv")
    heads, first, second = rows_of(workbook.sheets[0])

    assert workbook.how == How(encoding, delimiter)
    assert heads == ROWS[0]
    assert (first[0], first[1], first[3], first[7]) == (
        *("Q1-25-0377", "18/12/2025", "280.5"),
        'soft, "2nd cup"',
    )
    assert (second[0], second[7]) == ("0378", "≤ 5 µm")


def test_a_text_in_one_byte_a_sign_is_told(convert, plain):
    content = convert(plain, "Text - txt - csv (StarCalc):59,34,1,1", "csv")
    workbook = read(content, "pen.csv")

    assert workbook.how == How("cp1252", ";")
    assert workbook.sheets[0].row(1)[4] == "Öl %"


@pytest.mark.parametrize(
    ("form", "ending", "says"),
    [
        ("MS Excel 97", "xls", "old binary form (.xls)"),
        ("calc8", "ods", "open document form (.ods)"),
        ("OpenDocument Spreadsheet Flat XML", "fods", "is a web page or XML"),
        ("HTML (StarCalc)", "html", "is a web page or XML"),
        ("DIF", "dif", "old exchange form"),
        ("SYLK", "slk", "old exchange form"),
        ("calc_pdf_Export", "pdf", "is a PDF"),
    ],
)
def test_every_other_form_that_it_saves_is_refused_and_named(
    convert, plain, form, ending, says
):
    content = convert(plain, form, ending)

    with pytest.raises(FileRefused) as refused:
        read(content, "pen.xlsx")
    assert says in refused.value.sentence


def test_a_text_that_it_opened_and_saved_as_a_workbook_keeps_every_row(
    convert, tmp_path
):
    path = tmp_path / "penbook.csv"
    path.write_text("Batch,Pen\nQ1-25-0377,280.5\n,281\n\nQ1-25-0378,>300\n", "utf-8")
    (sheet,) = read(convert(path, "Calc MS Excel 2007 XML", "xlsx"), "a").sheets

    assert [it.texts for it in sheet.columns] == [
        ["Batch", "Q1-25-0377", "", "", "Q1-25-0378"],
        ["Pen", "280.5", "281", "", ">300"],
    ]
    assert sheet.columns[1].kinds == "tnn t"
