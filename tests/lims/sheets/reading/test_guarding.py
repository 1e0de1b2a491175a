"""A packed workbook that is not what it seems is refused before its cells are read."""

import io
import struct
import zipfile
from contextlib import suppress

import pytest

from lims.sheets.reading import FileRefused, guard, read
from lims.sheets.reading.guard import _check_unpacked
from lims.sheets.reading.refusing import UNPACKED
from tests.lims.sheets.reading import made


def why(content):
    with pytest.raises(FileRefused) as refused:
        read(content, "results.xlsx")
    return refused.value.sentence


def with_part(name, content="x"):
    return made.zipped(made.parts() | {name: content})


@pytest.mark.parametrize(
    ("part", "says"),
    [
        ("xl/vbaProject.bin", "macros"),
        ("xl/VBAPROJECT.BIN", "macros"),
        ("xl/activeX/activeX1.xml", "macros"),
        ("xl/macrosheets/sheet1.xml", "macros"),
        ("xl/externalLinks/externalLink1.xml", "from other workbooks"),
        ("xl/embeddings/oleObject1.bin", "another file inside"),
        ("xl/media/inner.zip", "another file inside"),
        ("/xl/outside.xml", "lies outside"),
        ("xl/../../outside.xml", "lies outside"),
        ("XL/workbook.xml", "two of its parts have one name"),
    ],
)
def test_what_runs_or_looks_elsewhere_is_refused(part, says):
    assert says in why(with_part(part))


@pytest.mark.parametrize("inner", [b"PK\x03\x04", b"%PDF-1.7", b"\xd0\xcf\x11\xe0"])
def test_a_file_hidden_under_another_name_is_refused(inner):
    assert "another file inside" in why(with_part("xl/media/image1.png", inner))


@pytest.mark.parametrize(
    "declared",
    [
        '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>',
        '<!DOCTYPE x SYSTEM "file:///etc/hostname"><x/>',
    ],
)
@pytest.mark.parametrize("part", [made.SHEET, "xl/sharedStrings.xml", "xl/a.rels"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_declared_document_type_is_refused_in_every_part(part, declared, encoding):
    content = made.zipped(made.parts() | {part: declared.encode(encoding)})

    assert "declares a document type" in why(content)


def test_a_document_type_far_behind_the_beginning_is_found():
    late = "<!--" + "x" * (guard.CHUNK - 10) + "--><!DOCTYPE x><x/>"

    assert "declares a document type" in why(with_part("xl/late.xml", late))


def test_a_part_that_unpacks_a_thousandfold_is_refused():
    content = with_part("xl/media/large.bin", bytes(40 * 1024 * 1024))

    assert len(content) < 100_000
    assert "more than 100 times its size" in why(content)


def test_more_than_can_be_unpacked_is_refused_however_well_it_packs():
    with pytest.raises(FileRefused, match="unpacks to more than 200 MB"):
        _check_unpacked(UNPACKED + 1, UNPACKED)


def test_a_size_that_the_archive_understates_does_not_help():
    content = bytearray(with_part("xl/media/large.bin", bytes(40 * 1024 * 1024)))
    at = content.rfind(b"PK\x01\x02")
    content[at + 24 : at + 28] = struct.pack("<L", 10)

    assert "cannot be unpacked" in why(bytes(content))


def test_too_many_parts_are_refused():
    many = {f"xl/media/{number}.bin": "x" for number in range(500)}

    assert "505 parts; 500 can be read" in why(made.zipped(made.parts() | many))


def test_an_archive_with_a_password_is_refused():
    content = bytearray(made.book())
    at = content.rfind(b"PK\x01\x02")
    content[at + 8] |= 1

    assert "protected with a password" in why(bytes(content))


@pytest.mark.parametrize("cut", [10, 100, 300, 900])
def test_a_file_that_was_cut_off_is_refused(cut):
    content = made.book()

    assert "damaged or not whole" in why(content[:-cut])


@pytest.mark.parametrize(
    "behind", [b"x", b"%PDF-1.4", made.book()], ids=["sign", "PDF", "workbook"]
)
def test_a_second_file_behind_the_workbook_is_refused(behind):
    assert "damaged or not whole" in why(made.book() + behind)


def test_a_pdf_before_the_workbook_is_refused():
    assert "is a PDF" in why(b"%PDF-1.4\n" + made.book())


def test_a_pdf_in_the_first_part_of_the_workbook_is_refused():
    inner = {"mimetype": b"%PDF-1.4"} | made.parts()
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, content in inner.items():
            archive.writestr(name, content)

    assert "is a PDF" in why(out.getvalue())


@pytest.mark.parametrize("at", range(40, 1400, 68))
def test_a_flipped_bit_never_fails_without_a_sentence(at):
    content = bytearray(made.book())
    content[at] ^= 0x10

    with suppress(FileRefused):
        assert read(bytes(content), "results.xlsx").sheets


def test_a_workbook_without_sheets_is_refused():
    parts = made.parts() | {"xl/workbook.xml": made.workbook(sheets="")}

    assert "No sheet of the workbook holds anything" in why(made.zipped(parts))


def test_a_workbook_of_empty_sheets_is_refused():
    assert "No sheet of the workbook holds anything" in why(made.book(rows=""))


class Pipe(io.RawIOBase):
    """What cannot be gone back in: sizes are then written behind each part."""

    def __init__(self):
        self.written = bytearray()

    def writable(self):
        return True

    def write(self, some):
        self.written += some
        return len(some)


def test_a_workbook_that_was_written_in_one_go_is_read():
    pipe = Pipe()
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in made.parts().items():
            archive.writestr(name, content)

    assert read(bytes(pipe.written), "a.xlsx") == read(made.book(), "a.xlsx")


def test_parts_that_share_their_bytes_are_refused():
    content = bytearray(made.zipped({"[Content_Types].xml": "x" * 9, "b": "y" * 5000}))
    at = content.find(b"PK\x01\x02")
    content[at + 20 : at + 24] = struct.pack("<L", 5000)

    with pytest.raises(FileRefused, match="overlap"):
        guard._check_sizes(
            zipfile.ZipFile(io.BytesIO(content)).infolist(), len(content)
        )
