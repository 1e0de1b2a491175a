"""What a file is, is told by its content; what is no table is refused with what to do."""

import pytest

from lims.sheets.reading import FileRefused, read
from tests.lims.sheets.reading import made

OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504)


def why(content, name="results.xlsx"):
    with pytest.raises(FileRefused) as refused:
        read(content, name)
    return refused.value.sentence


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "is empty"),
        (b"\r\n \t", "is empty"),
        (b"%PDF-1.7\n", "is a PDF"),
        (b"\x89PNG\r\n\x1a\n\0\0", "is a picture"),
        (b"\xff\xd8\xff\xe0\0\x10JFIF", "is a picture"),
        (b"BM\x36\0\0\0", "is a picture"),
        (b"{\\rtf1 Batch}", "is a text document"),
        (b"\x1f\x8b\x08\0\0", "is a packed file (gzip)"),
        (b"7z\xbc\xaf\x27\x1c", "is a packed archive (7z)"),
        (b"SQLite format 3\0", "is a database"),
        (b"MZ\x90\0\x03\0", "is a program"),
        (b"<html><table><tr><td>Batch", "is a web page or XML"),
        (b'\xef\xbb\xbf<?xml version="1.0"?><Workbook/>', "is a web page or XML"),
        ('<?xml version="1.0"?><w/>'.encode("utf-16"), "is a web page or XML"),
        (b'[{"batch": "Q1"}]', "is JSON"),
        (b'{"batch": "Q1"}', "is JSON"),
        (b"ID;PWXL;N;E\r\nP;PGeneral\r\n", "is in an old exchange form"),
        (b'TABLE\r\n0,1\r\n"EXCEL"\r\n', "is in an old exchange form"),
        (OLE + "Workbook".encode("utf-16-le"), "old binary form (.xls)"),
        (OLE + "EncryptedPackage".encode("utf-16-le"), "protected with a password"),
        (OLE + "WordDocument".encode("utf-16-le"), "is a text document"),
        (b"Batch;Pen\nQ1;\x00\x01\x02", "Line 2 holds a zero byte"),
    ],
)
def test_what_is_no_table_is_refused_and_says_what_it_is(content, says):
    assert says in why(content)


def test_a_file_whose_name_says_workbook_is_read_by_its_content():
    (sheet,) = read(b"Batch;Pen\nQ1;280\n", "results.xlsx").sheets

    assert sheet.row(2) == ["Q1", "280"]


def test_a_workbook_whose_name_says_text_is_read_as_a_workbook():
    (sheet,) = read(made.book(), "results.csv").sheets

    assert sheet.row(1) == ["Batch", "280.5"]


@pytest.mark.parametrize(
    ("part", "says"),
    [
        ("xl/workbook.bin", "binary form (.xlsb)"),
        ("word/document.xml", "is a text document"),
        ("ppt/presentation.xml", "is a set of slides"),
        ("content.xml", "open document form (.ods)"),
        ("readings.csv", "is a packed archive"),
    ],
)
def test_an_archive_that_is_no_workbook_says_what_it_is(part, says):
    assert says in why(made.zipped({part: "<x/>"}))


@pytest.mark.parametrize("beginning", [b"MZ", b"BM", b"PAR", b"ID;Pen", b"Rar"])
def test_a_text_that_happens_to_begin_like_something_else_is_read(beginning):
    content = b"%s-1;280\nQ1;281\n" % beginning

    assert read(content, "a.csv").sheets[0].height == 2


def test_a_file_that_is_too_large_is_refused_before_it_is_looked_at():
    assert "25 MB can be read" in why(b"a;b\n" * (7 * 1024 * 1024))


@pytest.mark.parametrize("content", [b"%PDF-1.7\n", b"\x89PNG", OLE, b"<html>"])
def test_every_refusal_says_what_to_do(content):
    assert any(word in why(content) for word in ("ask for", "type them", "save it as"))
