"""What reading a file gives: its sheets, how it was read, and what there is to tell about it."""

from dataclasses import dataclass

from specs.tables.sheet import Sheet

ENCODINGS = {  # as Python calls them -> as a person does
    "utf-8": "Unicode (UTF-8)",
    "utf-16-le": "Unicode (UTF-16, little-endian)",
    "utf-16-be": "Unicode (UTF-16, big-endian)",
    "cp1252": "Western European (1252)",
    "cp1250": "Central European (1250)",
    "cp1251": "Cyrillic (1251)",
    "cp850": "Western European (850)",
    "latin-1": "Western European (ISO 8859-1)",
    "mac-roman": "Western European (Roman)",
}
DELIMITERS = {
    ";": "semicolon",
    ",": "comma",
    "\t": "tab",
    "|": "upright bar",
    " ": "blanks, in steady columns",
}


@dataclass(frozen=True)
class How:
    """How a text file is read; empty for what is to be found. Both stay empty for a workbook and for a text of one column."""

    encoding: str = ""
    delimiter: str = ""


AS_FOUND = How()


@dataclass(frozen=True)
class Workbook:
    """What a file holds; `how` is how it was read, `notes` are sentences for the person who brought it."""

    sheets: tuple[Sheet, ...]
    how: How = AS_FOUND
    notes: tuple[str, ...] = ()
