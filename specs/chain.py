"""The chained record's arithmetic: each head holds the hash of all that went before.

h₀ is 64 zeros; hᵢ = SHA-256(ASCII of hᵢ₋₁, then the canonical bytes of record i). The
canonical form is JSON in UTF-8 with sorted keys and no spaces (the idea of RFC 8785);
numbers are kept as the text that was recorded, so that no float is ever hashed.
"""

import hashlib
import json
import re
from collections.abc import Iterable

from specs.numbers import Refused

FIRST_HEAD = "0" * 64
_HEAD = re.compile(r"[0-9a-f]{64}")


class ChainRefused(Refused):
    """Something that has no canonical form, or a head that is none."""


def canonical(content: object) -> bytes:
    """The canonical bytes of text, whole numbers, true, false, null, lists and objects.

    Raises ChainRefused for anything else: a float, a key that is no text.
    """
    _check(content)
    text = json.dumps(
        content, sort_keys=True, separators=(",", ":"), ensure_ascii=False
    )
    try:
        return text.encode()
    except UnicodeEncodeError:
        raise ChainRefused("A text holds half a character: it has no bytes.") from None


def next_head(previous: str, content: bytes | str) -> str:
    """The head after a record whose canonical bytes (or text) are `content`."""
    if not _HEAD.fullmatch(previous):
        raise ChainRefused("A head is 64 of the digits 0 to 9 and a to f.")
    tail = content.encode() if isinstance(content, str) else content
    return hashlib.sha256(previous.encode("ascii") + tail).hexdigest()


def heads(records: Iterable[object]) -> list[str]:
    """The head after each record, from the first on."""
    found, head = [], FIRST_HEAD
    for record in records:
        head = next_head(head, canonical(record))
        found.append(head)
    return found


def _check(content: object) -> None:
    if content is None or isinstance(content, str | bool | int):
        return
    if isinstance(content, list | tuple):
        for each in content:
            _check(each)
        return
    if not isinstance(content, dict):
        raise ChainRefused(
            f"{content!r} has no canonical form: record numbers and dates as text."
        )
    for key, value in content.items():
        if not isinstance(key, str):
            raise ChainRefused(f"The key {key!r} is no text.")
        _check(value)
