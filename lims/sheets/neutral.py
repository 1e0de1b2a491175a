"""Text that a spreadsheet would reckon with: a quote before it on the way out, and off again on the way in."""

import re

QUOTE = "'"
# The wide forms too: some spreadsheets take them for the narrow ones.
SIGNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_RECKONED = re.compile(f"{QUOTE}*[{re.escape(''.join(SIGNS))}]")


def neutral(text: str) -> str:
    """The text with a quote before it, if a program might take it for a formula. A text that begins so already gets one more."""
    return f"{QUOTE}{text}" if _RECKONED.match(text) else text


def bare(text: str) -> str:
    """The text as it was before `neutral`: exactly what that put there is taken off."""
    is_neutral = text.startswith(QUOTE) and _RECKONED.match(text) is not None
    return text.removeprefix(QUOTE) if is_neutral else text
