"""What is kept here already, as the cells of a form are looked up in it."""

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

Names = Mapping[str, tuple[str, ...]]  # a name in plain small letters -> codes

MOST_NEAR = 4
LARGEST_COMPARED = 1000  # names; each text that is not found is held against all


@dataclass(frozen=True)
class Kept:
    """The lists of what is kept: for each, the names that lead to a code, one or several."""

    today: dt.date
    lists: Mapping[str, Names] = field(default_factory=dict)

    def found(self, what: str, text: str) -> tuple[str, ...]:
        """The codes that a text can mean in a list; none, one or several."""
        return self.lists.get(what, {}).get(plain(text), ())

    def near(self, what: str, text: str) -> tuple[str, ...]:
        """Codes that a text may be meant to say: all of a short list, else what is written nearly alike."""
        names = self.lists.get(what, {})
        codes = list(dict.fromkeys(it for some in names.values() for it in some))
        if len(codes) <= MOST_NEAR:
            return tuple(codes)
        if len(names) > LARGEST_COMPARED:
            return ()
        alike = get_close_matches(plain(text), names, MOST_NEAR)
        return tuple(dict.fromkeys(it for name in alike for it in names[name]))[
            :MOST_NEAR
        ]


def plain(text: str) -> str:
    """A name as it is looked up: small letters, single blanks."""
    return " ".join(text.casefold().split())


def names_of(pairs: Iterable[tuple[str, str]]) -> Names:
    """A list of names from pairs of a name and the code that it leads to."""
    found: dict[str, tuple[str, ...]] = {}
    for name, code in pairs:
        key = plain(name)
        if key and code not in found.get(key, ()):
            found[key] = (*found.get(key, ()), code)
    return found
