"""Columns that say of what, where and by whom: products by their codes, places by their words, other texts as they stand."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence

from specs.tables.asking import COLUMN, Column, count_of, left_out
from specs.tables.known import Role
from specs.tables.numbers import single
from specs.tables.numbers.figures import Places
from specs.tables.numbers.spoken import folded, is_not_tested
from specs.tables.saying import Fate, Said
from specs.tables.seen import Key
from specs.tables.sheet import FAULT, FORMULA
from specs.tables.texts import unknown_products

UNKNOWN_PLACE, TOO_LONG = "unknown place", "too long"
LONGEST = {
    Role.KETTLE: 20, Role.PACK: 40, Role.INSTRUMENT: 40, Role.PERSON: 80, Role.REMARK: 300,
}  # fmt: skip

# Where a sample was taken, by the words of pen books: common practice, no source.
PLACES = {
    "kettle": "kettle", "kessel": "kettle", "reactor": "kettle", "reaktor": "kettle",
    "after mill": "after mill", "mill": "after mill", "after milling": "after mill",
    "nach mühle": "after mill", "mühle": "after mill", "homogeniser": "after mill",
    "pack": "pack", "drum": "pack", "pail": "pack", "finished": "pack", "fass": "pack",
    "eimer": "pack", "gebinde": "pack", "fertig": "pack", "filling": "pack",
    "abfüllung": "pack", "tote": "tote", "ibc": "tote", "container": "tote",
    "bulk": "bulk", "tank": "bulk", "lose": "bulk",
}  # fmt: skip
_PLACES = {folded(word): place for word, place in PLACES.items()}


def read_products(
    column: Column, products: Mapping[str, str], places: Places
) -> dict[Key, Said]:
    """The product of each different cell: by its code or its name, whatever capitals, blanks and hyphens it is written with.

    `products` leads from codes to names. What is neither is asked about, once a name:
    which product it is, or whether its rows are left out.
    """
    codes = _known_as(products)
    said: dict[Key, Said] = {}
    unknown: defaultdict[str, list[Key]] = defaultdict(list)
    for key in places:
        text = " ".join(key[1].split())
        code = codes.get(_bare(text), "")
        if not code or key[0] in (FORMULA, FAULT):
            unknown[_bare(text)].append(key)
        elif code == text:
            said[key] = Said(Fate.TAKEN, code)
        else:
            said[key] = Said(Fate.CONVERTED, code, rule=f"“{text}” is {code}")
    return said | unknown_products.ask(column, products, places, unknown)


def _known_as(products: Mapping[str, str]) -> dict[str, str]:
    """From letters and figures to a code: those of a name that one product alone has, and those of the codes."""
    names = Counter(_bare(it) for it in products.values())
    named = {
        _bare(name): code
        for code, name in products.items()
        if name and names[_bare(name)] == 1
    }
    return named | {_bare(code): code for code in sorted(products)}


def _bare(text: str) -> str:
    return "".join(it for it in text.casefold() if it.isalnum())


def read_texts(column: Column, role: Role, places: Places) -> dict[Key, Said]:
    """What becomes of each different cell of a column of names or remarks."""
    said = {key: _text(key, role) for key in places}
    for matter in (UNKNOWN_PLACE, single.HOLDS_FORMULA, single.HOLDS_FAULT, TOO_LONG):
        keys = [key for key, it in said.items() if it.question == matter]
        if keys:
            _refuse(column, matter, keys, said, places)
    return said


_WANTED = {
    UNKNOWN_PLACE: "no place where samples are taken: write kettle, after mill, pack, tote or bulk",
    single.HOLDS_FORMULA: "a formula: paste its value",
    single.HOLDS_FAULT: "a fault: write what was meant",
    TOO_LONG: "more than is kept, or signs that cannot be printed: write it shorter and in plain signs",
}  # fmt: skip


def _refuse(
    column: Column,
    matter: str,
    keys: Sequence[Key],
    said: dict[Key, Said],
    places: Places,
) -> None:
    where = column.standing(place for key in keys for place in places[key])
    sentence = (
        f"{count_of(where)} of {column.name} hold{'s' if len(where) == 1 else ''} "
        f"{_WANTED[matter]}, or leave the cell out."
    )
    level = COLUMN if matter == UNKNOWN_PLACE else "cell"
    is_left = column.refuse(matter, where, sentence, level=level)
    for key in keys:
        why = said[key].why
        refused = Said(Fate.REFUSED, why=why, question=column.key(matter))
        said[key] = left_out(why) if is_left else refused


def _text(key: Key, role: Role) -> Said:
    text = " ".join(key[1].split())
    if key[0] == FORMULA or (text.startswith("=") and len(text) > 1):
        return _no(single.HOLDS_FORMULA, "holds a formula.")
    if key[0] == FAULT:
        return _no(single.HOLDS_FAULT, f"holds the fault “{text}”.")
    if role == Role.PLACE:
        return _place(text)
    if role != Role.REMARK and is_not_tested(text):
        return Said(Fate.EMPTY, rule=f"“{text}” says nothing")
    if len(text) > LONGEST.get(role, 40) or not text.isprintable():
        return _no(TOO_LONG, f"has more than {LONGEST.get(role, 40)} characters, or signs that cannot be printed.")  # fmt: skip
    return Said(Fate.TAKEN, text)


def _place(text: str) -> Said:
    place = _PLACES.get(folded(text), "")
    if not place:
        return _no(UNKNOWN_PLACE, f"“{text[:40]}” is no place where samples are taken.")
    if place == text:
        return Said(Fate.TAKEN, place)
    return Said(Fate.CONVERTED, place, rule=f"“{text}” is {place}")


def _no(matter: str, why: str) -> Said:
    """A refusal; its matter waits in the place of the question's key."""
    return Said(Fate.REFUSED, why=why, question=matter)
