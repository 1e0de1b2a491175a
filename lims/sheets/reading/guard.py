"""What a packed workbook must be before anything in it is read: no larger than it says, nothing hidden in it, nothing that fetches or runs."""

import io
import struct
import zipfile
import zlib
from collections.abc import Iterator

from lims.sheets.reading.refusing import (
    PARTS,
    RATIO,
    SAVE_AS,
    SURELY_SMALL,
    UNPACKED,
    FileRefused,
    MiB,
    damaged,
    spaced,
)

CHUNK = 1 << 20
END, END_LENGTH = b"PK\x05\x06", 22
TYPES, BOOK, BINARY_BOOK = "[Content_Types].xml", "xl/workbook.xml", "xl/workbook.bin"
DECLARATIONS = (b"<!DOCTYPE", b"<!ENTITY")
INNER = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"%PDF-", b"\x1f\x8b\x08", b"7z\xbc\xaf")
UNREADABLE = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    NotImplementedError,  # another way of packing
    UnicodeDecodeError,  # in the name of a part
)
WHAT_IT_IS = (  # a part -> what the archive is
    (BINARY_BOOK, "a workbook in the binary form (.xlsb)"),
    ("word/document.xml", "a text document"),
    ("ppt/presentation.xml", "a set of slides"),
    ("content.xml", "a workbook or document in the open document form (.ods)"),
)


def opened(content: bytes) -> zipfile.ZipFile:
    """The workbook's archive, gone through once to its end; raises FileRefused."""
    _check_end(content)
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
    except (zipfile.BadZipFile, ValueError, NotImplementedError, OverflowError) as why:
        raise damaged("its list of parts cannot be read") from why
    names = archive.namelist()
    _check_names(names)
    _check_what_it_is(set(names))
    _check_active([name.lower() for name in names])
    _check_sizes(archive.infolist(), len(content))
    _go_through(archive, len(content))
    return archive


def _check_end(content: bytes) -> None:
    """The archive begins with the file and ends with it: no second file before or behind."""
    at = content.rfind(END)
    if not content.startswith(b"PK\x03\x04") or at < 0:
        raise damaged("the end of the file is missing")
    if len(content) < at + END_LENGTH:
        raise damaged("the end of the file is missing")
    (size, start, comment) = struct.unpack("<LLH", content[at + 12 : at + END_LENGTH])
    if at + END_LENGTH + comment != len(content) or comment:
        raise damaged("something else stands behind it")
    if start + size != at:
        raise damaged("something else stands before it")


def _check_names(names: list[str]) -> None:
    if len(names) > PARTS:
        raise FileRefused(
            f"The workbook has {spaced(len(names))} parts; {PARTS} can be read. Copy the "
            "sheets that hold the tables into a new workbook and bring that in."
        )
    if len({name.lower() for name in names}) != len(names):
        raise damaged("two of its parts have one name")
    for name in names:
        if name.startswith(("/", "\\")) or ".." in name.replace("\\", "/").split("/"):
            raise damaged("a part lies outside of it")


def _check_what_it_is(names: set[str]) -> None:
    if TYPES in names and BOOK in names:
        return
    for part, what in WHAT_IT_IS:
        if part in names:
            raise FileRefused(f"The file is {what}. {SAVE_AS}")
    if TYPES in names:
        raise damaged("it has no list of sheets")
    raise FileRefused(
        "The file is a packed archive. Unpack it and bring the files in one by one."
    )


def _check_active(names: list[str]) -> None:
    """Nothing that runs, and nothing that looks elsewhere."""
    for name in names:
        if "vbaproject" in name or "/activex" in name or "/macrosheets/" in name:
            raise FileRefused(
                "The workbook holds macros. Save it as .xlsx, which leaves them out, and "
                "bring that in."
            )
        if "/externallinks/" in name:
            raise FileRefused(
                "The workbook takes values from other workbooks. Copy the table, paste it as "
                "values into a new workbook and bring that in."
            )
        if "/embeddings/" in name or name.endswith((".zip", ".xlsx", ".xls", ".gz")):
            raise FileRefused(
                "The workbook holds another file inside. Copy the table into a new workbook "
                "and bring that in."
            )


def _check_sizes(parts: list[zipfile.ZipInfo], size: int) -> None:
    if any(part.flag_bits & 1 for part in parts):
        raise FileRefused(
            "The file is protected with a password. Save it without the password and bring "
            "that in."
        )
    if min(part.header_offset for part in parts):
        raise damaged("something else stands before it")
    if sum(part.compress_size for part in parts) > size:
        raise damaged("its parts overlap")
    _check_unpacked(sum(part.file_size for part in parts), size)


def _check_unpacked(unpacked: int, size: int) -> None:
    if unpacked > UNPACKED:
        raise FileRefused(
            f"The workbook unpacks to more than {UNPACKED // MiB} MB, which is more than can "
            "be read. Split its sheets and bring them in one by one."
        )
    if unpacked > SURELY_SMALL and unpacked > RATIO * size:
        raise FileRefused(
            f"The workbook unpacks to more than {RATIO} times its size, as no sheet of "
            "results does. Copy the table into a new workbook and bring that in."
        )


def _go_through(archive: zipfile.ZipFile, size: int) -> None:
    """Unpack every part once and keep nothing, since what an archive says of its sizes may be untrue."""
    unpacked = 0
    try:
        for part in archive.infolist():
            last = b""
            for number, chunk in enumerate(_chunks(archive, part)):
                unpacked += len(chunk)
                _check_unpacked(unpacked, size)
                if not number and chunk.startswith(INNER):
                    raise FileRefused(
                        "The workbook holds another file inside. Copy the table into a new "
                        "workbook and bring that in."
                    )
                _check_declarations(last[-16:] + chunk, part.filename)
                last = chunk
    except UNREADABLE as why:
        raise damaged("a part of it cannot be unpacked") from why


def _chunks(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> Iterator[bytes]:
    with archive.open(part) as stream:
        while chunk := stream.read(CHUNK):
            yield chunk


def _check_declarations(chunk: bytes, name: str) -> None:
    if not name.lower().endswith((".xml", ".rels", ".vml")):
        return
    plain = chunk.replace(b"\0", b"")  # UTF-16 has a zero beside each sign
    if any(word in plain for word in DECLARATIONS):
        raise FileRefused(
            "The workbook declares a document type or entities, as no spreadsheet program "
            "does. Open it in one, save it anew and bring the new file in."
        )
