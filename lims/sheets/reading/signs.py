"""What a file is, told by its first bytes, never by its name."""

import re

from lims.sheets.reading.refusing import SAVE_AS, FileRefused

ZIP, TEXT = "zip", "text"
OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
LOCKED = "EncryptedPackage".encode("utf-16-le")
WORDS = "WordDocument".encode("utf-16-le")

# How a file begins -> what it is.
BEGINNINGS = (
    (b"%PDF-", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"BM", "a picture"),
    (b"II*\0", "a picture"),
    (b"MM\0*", "a picture"),
    (b"{\\rtf", "a text document"),
    (b"\x1f\x8b", "a packed file (gzip)"),
    (b"BZh", "a packed file (bzip2)"),
    (b"7z\xbc\xaf", "a packed archive (7z)"),
    (b"Rar!", "a packed archive (rar)"),
    (b"\xfd7zXZ", "a packed file (xz)"),
    (b"\x28\xb5\x2f\xfd", "a packed file (zstd)"),
    (b"SQLite format 3", "a database"),
    (b"PAR1", "a column store"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
)
# Of these a text may begin with the same signs, so more is asked.
ONLY_BINARY = (b"BM", b"MZ")
PICTURE = (
    "The file is a picture. Numbers are not read off pictures: type them into a "
    "spreadsheet, or ask for the file that the picture was taken of."
)
PDF = (
    "The file is a PDF. Tables are not read off pages: ask for the spreadsheet that it "
    "was printed from."
)
OLD = (
    "The file is a workbook in the old binary form (.xls), whatever its name says. Open "
    "it in a spreadsheet program, save it as .xlsx and bring that in."
)
PROTECTED = (
    "The workbook is protected with a password. Open it, save it without the password "
    "and bring that in."
)
_MARKUP = re.compile(
    rb"\s*<(?:!doctype|!--|html|head|body|table|meta|style|\?xml|workbook|svg)", re.I
)
_EXCHANGED = re.compile(rb"ID;P[^\r\n]*\r?\n[A-Z];")
_DIF = re.compile(rb"TABLE\r?\n0,1\r?\n")


def told(content: bytes) -> str:
    """ZIP or TEXT; raises FileRefused for all else."""
    if not content.strip(b"\0\t\r\n "):
        raise FileRefused("The file is empty. Bring in a file that holds a table.")
    if b"%PDF-" in content[:1024]:
        raise FileRefused(PDF)
    if content.startswith(b"PK"):
        return ZIP
    if content.startswith(OLE):
        raise FileRefused(_old(content))
    for beginning, what in BEGINNINGS:
        if content.startswith(beginning) and (
            beginning not in ONLY_BINARY or b"\0" in content[:512]
        ):
            raise FileRefused(
                PICTURE if what == "a picture" else f"The file is {what}. {SAVE_AS}"
            )
    _refuse_markup(content)
    return TEXT


def _old(content: bytes) -> str:
    if LOCKED in content:
        return PROTECTED
    if WORDS in content:
        return f"The file is a text document. {SAVE_AS}"
    return OLD


def _refuse_markup(content: bytes) -> None:
    plain = content[:2048].removeprefix(b"\xef\xbb\xbf").replace(b"\0", b"")
    plain = plain.removeprefix(b"\xff\xfe").removeprefix(b"\xfe\xff")
    if _MARKUP.match(plain):
        raise FileRefused(
            "The file is a web page or XML under another name, as some programs write "
            f"it. {SAVE_AS}"
        )
    if plain.lstrip()[:1] == b"{" or re.match(rb'\s*\[\s*[\[{"]', plain):
        raise FileRefused(f"The file is JSON. {SAVE_AS}")
    if _EXCHANGED.match(plain) or _DIF.match(plain):
        raise FileRefused(f"The file is in an old exchange form. {SAVE_AS}")
