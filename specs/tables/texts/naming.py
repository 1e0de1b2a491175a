"""Columns that say of what, where and by whom: products by their codes, places by their words, other texts as they stand."""

from collections import defaultdict
from collections.abc import Collection, Sequence

from specs.tables.asking import COLUMN, LEAVE, Column, count_of, left_out
from specs.tables.known import Role
from specs.tables.numbers import single
from specs.tables.numbers.figures import Places
from specs.tables.numbers.spoken import folded, is_not_tested
from specs.tables.saying import Choice, Fate, Said
from specs.tables.seen import Key
from specs.tables.sheet import FAULT, FORMULA

UNKNOWN_PRODUCT, UNKNOWN_PLACE, TOO_LONG = (
    "unknown product",
    "unknown place",
    "too long",
)
AS = "as "  # before the code of the product that an unknown one stands for
MOST_OFFERED = 40
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
    column: Column, products: Collection[str], places: Places
) -> dict[Key, Said]:
    """The product of each different cell: by its code, whatever capitals, blanks and hyphens it is written with.

    Codes that are not kept are asked about at once: leave their rows out, or write
    others; one alone may be taken for a product that is kept.
    """
    codes = {_bare(code): code for code in sorted(products)}
    said: dict[Key, Said] = {}
    unknown: defaultdict[str, list[Key]] = defaultdict(list)
    for key in places:
        text = " ".join(key[1].split())
        code = codes.get(_bare(text), "")
        if not code or key[0] in (FORMULA, FAULT):
            unknown[text].append(key)
        elif code == text:
            said[key] = Said(Fate.TAKEN, code)
        else:
            said[key] = Said(Fate.CONVERTED, code, rule=f"“{text}” is {code}")
    if unknown:
        said |= _unknown(column, products, places, unknown)
    return said


def _bare(text: str) -> str:
    return "".join(it for it in text.casefold() if it.isalnum())


def _unknown(
    column: Column,
    products: Collection[str],
    places: Places,
    unknown: dict[str, list[Key]],
) -> dict[Key, Said]:
    """Ask about all unknown codes of the column at once; one alone may be taken for another product."""
    keys = [key for some in unknown.values() for key in some]
    where = column.standing(place for key in keys for place in places[key])
    told = ", ".join(f"“{it[:40]}”" for it in list(unknown)[:5])
    more = f" and {len(unknown) - 5} more" if len(unknown) > 5 else ""
    is_one = len(unknown) == 1
    others = sorted(products)[:MOST_OFFERED] if is_one else []
    taken = column.ask(
        UNKNOWN_PRODUCT,
        where,
        f"{told}{more} in {column.name} {'is no product' if is_one else 'are no products'} "
        f"kept here ({count_of(where, 'row')}). Leave the rows out, write another code, or "
        "add the product under Specifications first.",
        [
            Choice(LEAVE, "Leave these rows out"),
            *(Choice(AS + it, f"Take it for {it}") for it in others),
        ],
        level=COLUMN,
        is_refusal=True,
        takes_text=True,
    )
    return {key: _as_taken(column, key, taken) for key in keys}


def _as_taken(column: Column, key: Key, taken: str) -> Said:
    why = f"“{key[1].strip()[:40]}” is no product kept here."
    if taken == LEAVE:
        return left_out(why)
    if taken.startswith(AS):
        code = taken.removeprefix(AS)
        return Said(Fate.CONVERTED, code, rule=f"“{key[1].strip()}” is {code}, as answered")  # fmt: skip
    return Said(Fate.REFUSED, why=why, question=column.key(UNKNOWN_PRODUCT))


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
