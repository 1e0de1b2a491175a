"""Whether two texts say the same value: a workbook stores 2 where its screen, and a text made of it, shows 2.0."""

import re
from functools import lru_cache

_WITH_DECIMALS = re.compile(r"([<>]?-?[0-9]+)\.([0-9]*?)0*")


@lru_cache(maxsize=65536)
def alike(value: str) -> str:
    """What all writings of one value have in common: a stored number without the zeros at its end; other texts as they stand. Raises nothing."""
    found = _WITH_DECIMALS.fullmatch(value)
    if found is None:
        return value
    return f"{found[1]}.{found[2]}" if found[2] else found[1]
