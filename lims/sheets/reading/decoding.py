"""The bytes of a text file to text: what it says of itself first, then UTF-8, then Western European."""

import codecs

from lims.sheets.reading.found import ENCODINGS
from lims.sheets.reading.refusing import SAVE_AS, FileRefused

BEGINNINGS = (  # longest first: UTF-32 little-endian begins as UTF-16 does
    (codecs.BOM_UTF32_LE, ""),
    (codecs.BOM_UTF32_BE, ""),
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
WESTERN = "cp1252"
WIDE = ("utf-16-le", "utf-16-be")
LOOKED_AT = 4096  # bytes; every second is a zero where each sign takes two
GUESSED = (
    "The text was read as {name}. If letters such as ä or µ look wrong, choose another "
    "encoding."
)
UNREADABLE = (
    "{count} signs are none in {name} and stand as �. Choose another encoding, or put them "
    "right in the file."
)


def decoded(content: bytes, encoding: str = "") -> tuple[str, str, tuple[str, ...]]:
    """The text, its encoding and what there is to tell; raises FileRefused."""
    if encoding and encoding not in ENCODINGS:
        raise FileRefused("Choose one of the encodings that are offered.")
    begins, length = _beginning(content)
    chosen = encoding or begins or _wide(content)
    body = content[length:] if begins else content
    notes: list[str] = []
    if not chosen:
        chosen = "utf-8" if _is_utf8(body) else WESTERN
        if chosen == WESTERN:
            notes.append(GUESSED.format(name=ENCODINGS[WESTERN]))
    elif chosen in WIDE and not encoding and not begins:
        notes.append(GUESSED.format(name=ENCODINGS[chosen]))
    text = body.decode(chosen, errors="replace")
    _refuse_binary(text)
    lost = text.count("\ufffd")
    if lost:
        notes.append(UNREADABLE.format(count=lost, name=ENCODINGS[chosen]))
    return text.removeprefix("\ufeff"), chosen, tuple(notes)


def _beginning(content: bytes) -> tuple[str, int]:
    for mark, encoding in BEGINNINGS:
        if content.startswith(mark):
            if not encoding:
                raise FileRefused(f"The text is in UTF-32. {SAVE_AS}")
            return encoding, len(mark)
    return "", 0


def _wide(content: bytes) -> str:
    """UTF-16 without its mark, told by zeros at every second place."""
    some = content[:LOOKED_AT]
    half = len(some) // 2
    if not half or len(content) % 2:
        return ""
    even, odd = some[0::2].count(0), some[1::2].count(0)
    if odd > half * 0.4 and even < half * 0.05:
        return "utf-16-le"
    if even > half * 0.4 and odd < half * 0.05:
        return "utf-16-be"
    return ""


def _is_utf8(body: bytes) -> bool:
    try:
        body.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _refuse_binary(text: str) -> None:
    at = text.find("\0")
    if at >= 0:
        line = text.count("\n", 0, at) + 1
        raise FileRefused(
            f"Line {line} holds a zero byte, as no text does: the file is damaged, or no "
            f"table. {SAVE_AS}"
        )
