"""A file to sheets, whatever it is."""

from lims.sheets.reading import book, signs, text
from lims.sheets.reading.found import AS_FOUND, How, Workbook
from lims.sheets.reading.refusing import LARGEST, MiB, too_large


def read(content: bytes, name: str, *, how: How = AS_FOUND) -> Workbook:
    """The sheets of a workbook (.xlsx) or of a text of columns, told by the content, never by the name. `how` counts for a text only. Raises FileRefused with what to do."""
    if len(content) > LARGEST:
        raise too_large("The file is too large", f"{LARGEST // MiB} MB")
    if signs.told(content) == signs.ZIP:
        return book.read(content)
    return text.read(content, name, how)
