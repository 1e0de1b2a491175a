"""The bytes of a text to its signs: what it says of itself, what it must be, what a person chooses."""

import codecs

import pytest

from lims.sheets.reading import ENCODINGS, FileRefused, How, read
from lims.sheets.reading.decoding import decoded

TEXT = "Batch;Öl µm\r\nQ1;1 °C ≤ 5\r\n"
WESTERN = "Batch;Öl µm\r\nQ1;1 °C – 5 €\r\n"


def read_text(content, encoding=""):
    workbook = read(content, "a.csv", how=How(encoding=encoding))
    return workbook.sheets[0].row(2)[1], workbook.how.encoding, workbook.notes


@pytest.mark.parametrize(
    ("content", "encoding"),
    [
        (TEXT.encode(), "utf-8"),
        (codecs.BOM_UTF8 + TEXT.encode(), "utf-8"),
        (codecs.BOM_UTF16_LE + TEXT.encode("utf-16-le"), "utf-16-le"),
        (codecs.BOM_UTF16_BE + TEXT.encode("utf-16-be"), "utf-16-be"),
    ],
)
def test_a_text_that_says_what_it_is_is_read_as_that_and_nothing_is_told(
    content, encoding
):
    assert read_text(content) == ("1 °C ≤ 5", encoding, ())


@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_wide_text_without_its_mark_is_read_and_told(encoding):
    text, found, notes = read_text(TEXT.encode(encoding))

    assert (text, found) == ("1 °C ≤ 5", encoding)
    assert "was read as Unicode (UTF-16" in notes[0]


def test_what_is_no_unicode_is_western_european_and_told():
    text, found, notes = read_text(WESTERN.encode("cp1252"))

    assert (text, found) == ("1 °C – 5 €", "cp1252")
    (note,) = notes
    assert note.startswith("The text was read as Western European (1252).")
    assert note.endswith("choose another encoding.")


@pytest.mark.parametrize(
    ("encoding", "word"),
    [
        ("cp1250", "Łódź"),
        ("cp1251", "Смазка"),
        ("cp850", "Öl ½"),
        ("latin-1", "Öl µ"),
        ("mac-roman", "Öl ≤"),
        ("cp1252", "Öl €"),
        ("utf-8", "Öl ≤"),
        ("utf-16-le", "Öl ≤"),
        ("utf-16-be", "Öl ≤"),
    ],
)
def test_a_chosen_encoding_is_used(encoding, word):
    content = f"Batch;Remark\nQ1;{word}\n".encode(encoding)

    assert read_text(content, encoding) == (word, encoding, ())


def test_every_encoding_that_is_offered_is_tried_above():
    marks = test_a_chosen_encoding_is_used.pytestmark
    tried = {encoding for encoding, _ in marks[0].args[1]}

    assert tried == set(ENCODINGS)


def test_signs_that_an_encoding_does_not_have_are_counted_and_told():
    text, _, notes = read_text(b"Batch;Remark\nQ1;\x81\x8d \xe4\n")

    assert text == "\ufffd\ufffd ä"
    assert "2 signs are none in Western European (1252)" in notes[1]


def test_a_mark_at_the_beginning_is_no_part_of_the_first_heading():
    content = codecs.BOM_UTF8 + b"Batch;Pen\nQ1;280\n"

    assert read(content, "a.csv").sheets[0].row(1)[0] == "Batch"
    assert (
        read(content, "a.csv", how=How(encoding="utf-8")).sheets[0].row(1)[0] == "Batch"
    )


def test_an_encoding_that_is_not_offered_is_refused():
    with pytest.raises(FileRefused, match="Choose one of the encodings"):
        read(b"a;b\n", "a.csv", how=How(encoding="utf-7"))


@pytest.mark.parametrize("mark", [codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE])
def test_utf_32_is_refused(mark):
    with pytest.raises(FileRefused, match="UTF-32"):
        decoded(mark + b"a\0\0\0")


def test_a_zero_byte_is_refused_with_its_line():
    with pytest.raises(FileRefused, match="Line 3 holds a zero byte"):
        read(b"Batch;Pen\nQ1;280\nQ2;\0\n", "a.csv")
