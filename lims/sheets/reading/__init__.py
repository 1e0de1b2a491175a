"""Files to sheets: what is no table is refused with what to do, and nothing in a file is run, fetched or expanded."""

from lims.sheets.reading.found import DELIMITERS, ENCODINGS, How, Workbook
from lims.sheets.reading.limited import read_limited
from lims.sheets.reading.packing import packed, unpacked
from lims.sheets.reading.refusing import FileRefused
from lims.sheets.reading.whole import read

__all__ = [
    "DELIMITERS",
    "ENCODINGS",
    "FileRefused",
    "How",
    "Workbook",
    "packed",
    "read",
    "read_limited",
    "unpacked",
]
