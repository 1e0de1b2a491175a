"""What was tested, where each row says it: by the laboratory's own names; other words are asked about once, with what they speak for chosen already."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from specs.tables.asking import COLUMN, LEAVE, Column, count_of, left_out
from specs.tables.finding.heading_words import codes_of, plain
from specs.tables.known import Measured
from specs.tables.numbers.figures import Places
from specs.tables.saying import Choice, Fate, Said
from specs.tables.seen import Key
from specs.tables.sheet import FAULT, FORMULA

UNKNOWN = "unknown test"
AS = "as "
MOST_NAMES = 60  # asked about one by one; all further ones are left out together

Known = Mapping[str, Measured]


def own_names(known: Known) -> dict[str, str]:
    """From plain words to a code: the names, and the names with their conditions, that one characteristic alone has."""
    words: defaultdict[str, list[str]] = defaultdict(list)
    for code, it in known.items():
        for text in {plain(it.name), plain(f"{it.name} {it.conditions}")}:
            words[text].append(code)
    return {text: codes[0] for text, codes in words.items() if len(codes) == 1 and text}


def read_tests(column: Column, known: Known, places: Places) -> dict[Key, Said]:
    """The characteristic of each different cell, by its code."""
    names = own_names(known)
    said: dict[Key, Said] = {}
    unknown: defaultdict[str, list[Key]] = defaultdict(list)
    for key in places:
        words = plain(key[1])
        typed = key[1].strip().casefold()
        code = typed if typed in known else names.get(words, "")
        if code and key[0] not in (FORMULA, FAULT):
            said[key] = Said(Fate.CONVERTED, code, rule=f"“{key[1].strip()}” is {_full(known[code])}")  # fmt: skip
        else:
            unknown[words].append(key)
    for words, keys in list(unknown.items())[:MOST_NAMES]:
        said |= _ask(column, known, places, words, keys)
    rest = [key for _, keys in list(unknown.items())[MOST_NAMES:] for key in keys]
    return said | (_leave(column, places, rest) if rest else {})


def _full(it: Measured) -> str:
    return f"{it.name}, {it.conditions}" if it.conditions else it.name


def _ask(
    column: Column, known: Known, places: Places, words: str, keys: Sequence[Key]
) -> dict[Key, Said]:
    where = column.standing(place for key in keys for place in places[key])
    text, matter = " ".join(keys[0][1].split())[:60], f"{UNKNOWN} {words}"
    several = [it for it in known.values() if plain(it.name) == words]
    what = (
        f"is a name of {len(several)} tests" if several else "is no name that is kept"
    )
    meant = [it for it in codes_of(keys[0][1]) if it in known]
    taken = column.ask(
        matter,
        where,
        f"“{text}” in {column.name} {what} here ({count_of(where, 'row')}). "
        "What was tested?",
        [
            *(Choice(AS + it.code, _full(it)) for it in known.values()),
            Choice(LEAVE, "Leave these rows out"),
        ],
        level=COLUMN,
        proposed=AS + meant[0] if meant else "",
    )
    return {key: _as_taken(column, known, key, matter, taken) for key in keys}


def _as_taken(column: Column, known: Known, key: Key, matter: str, taken: str) -> Said:
    text = f"“{' '.join(key[1].split())[:60]}”"
    why = f"{text} is the name of no test, or of several."
    if taken == LEAVE:
        return left_out(why)
    code = taken.removeprefix(AS)
    if taken:
        return Said(Fate.CONVERTED, code, rule=f"{text} is {_full(known[code])}, as answered")  # fmt: skip
    return Said(Fate.ASKS, why=why, question=column.key(matter))


def _leave(column: Column, places: Places, keys: Sequence[Key]) -> dict[Key, Said]:
    """Names beyond those that are asked about: they are too many to be tests."""
    where = column.standing(place for key in keys for place in places[key])
    taken = column.ask(
        UNKNOWN,
        where,
        f"{count_of(where)} of {column.name} hold more different names than tests have: "
        "take the column for something else, or leave these rows out.",
        [Choice(LEAVE, "Leave these rows out")],
        level=COLUMN,
        is_refusal=True,
    )
    why = "one of very many names."
    if taken == LEAVE:
        return {key: left_out(why) for key in keys}
    waits = Said(Fate.REFUSED, why=why, question=column.key(UNKNOWN))
    return dict.fromkeys(keys, waits)
