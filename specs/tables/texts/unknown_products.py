"""Products that a sheet names otherwise than they are kept: asked about once a name, with the product that the words speak for chosen already."""

import re
from collections.abc import Mapping, Sequence

from specs.tables.asking import COLUMN, LEAVE, Column, count_of, left_out
from specs.tables.numbers.figures import Places
from specs.tables.saying import Choice, Fate, Said
from specs.tables.seen import Key

UNKNOWN = "unknown product"
AS = "as "  # before the code of the product that an unknown one stands for
MOST_NAMES = 30  # asked about one by one; all further names are asked about together
MOST_OFFERED = 1000
_PARTS = re.compile(r"[^\W\d_]+|[0-9]+")


def ask(
    column: Column,
    products: Mapping[str, str],
    places: Places,
    unknown: Mapping[str, Sequence[Key]],
) -> dict[Key, Said]:
    """What becomes of the cells that name no product kept here.

    `products` leads from codes to names, `unknown` from the letters and figures of a name
    to the cells that are written so.
    """
    said: dict[Key, Said] = {}
    several = list(unknown.items())
    for bare, keys in several[:MOST_NAMES]:
        said |= _of_one(column, products, places, bare, keys)
    rest = [key for _, keys in several[MOST_NAMES:] for key in keys]
    return said | (_of_many(column, places, rest) if rest else {})


def in_words(code: str, name: str) -> str:
    """A product as a list of choices shows it: its code, and its name where that says more."""
    return name if name.startswith(code) else f"{code}: {name}" if name else code


def spoken_for(text: str, products: Mapping[str, str]) -> str:
    """The one product of which a text speaks: by its code among other words, or by two words of its name at least, and by no word that is not its own. Empty where none or several are."""
    parts = [it.casefold() for it in _PARTS.findall(text)]
    words = [it for it in parts if it.isalpha() and len(it) > 1]
    bare = [_bare(it) for it in text.split()]
    by_code = [code for code in products if _bare(code) in bare]
    if len(by_code) == 1:
        return by_code[0]
    named = [code for code in products if _fits(parts, f"{code} {products[code]}")]
    return named[0] if len(named) == 1 and len(words) > 1 else ""


def _bare(text: str) -> str:
    return "".join(it for it in text.casefold() if it.isalnum())


def _fits(parts: Sequence[str], name: str) -> bool:
    """Whether each part begins a part of the name; figures have to be the same."""
    own = [it.casefold() for it in _PARTS.findall(name)]
    return all(
        part in own or (part.isalpha() and any(it.startswith(part) for it in own))
        for part in parts
    )


def _of_one(
    column: Column,
    products: Mapping[str, str],
    places: Places,
    bare: str,
    keys: Sequence[Key],
) -> dict[Key, Said]:
    where = column.standing(place for key in keys for place in places[key])
    text, matter = _shown(keys[0]), f"{UNKNOWN} {bare}"
    proposed = spoken_for(keys[0][1], products)
    taken = column.ask(
        matter,
        where,
        f"{text} in {column.name} is no product kept here ({count_of(where, 'row')}). Which "
        "product is it? One that is missing can be added under Specifications first.",
        [
            *(
                Choice(AS + it, in_words(it, name))
                for it, name in sorted(products.items())[:MOST_OFFERED]
            ),
            Choice(LEAVE, "Leave these rows out"),
        ],
        level=COLUMN,
        proposed=AS + proposed if proposed else "",
    )
    return {key: _as_taken(column, key, matter, taken) for key in keys}


def _of_many(column: Column, places: Places, keys: Sequence[Key]) -> dict[Key, Said]:
    """All names beyond those that are asked about one by one: left out, or written anew."""
    where = column.standing(place for key in keys for place in places[key])
    told = ", ".join(_shown(key) for key in keys[:5])
    taken = column.ask(
        UNKNOWN,
        where,
        f"{told} and further texts of {column.name} are no products kept here "
        f"({count_of(where, 'row')}). Leave the rows out, write another code, or add the "
        "products under Specifications first.",
        [Choice(LEAVE, "Leave these rows out")],
        level=COLUMN,
        is_refusal=True,
        takes_text=True,
    )
    return {key: _as_taken(column, key, UNKNOWN, taken) for key in keys}


def _shown(key: Key) -> str:
    return f"“{' '.join(key[1].split())[:40]}”"


def _as_taken(column: Column, key: Key, matter: str, taken: str) -> Said:
    text = _shown(key)
    if taken == LEAVE:
        return left_out(f"{text} is no product kept here.")
    if taken.startswith(AS):
        code = taken.removeprefix(AS)
        return Said(Fate.CONVERTED, code, rule=f"{text} is {code}, as answered")
    why = f"{text} is no product kept here."
    fate = Fate.REFUSED if matter == UNKNOWN else Fate.ASKS
    return Said(fate, why=why, question=column.key(matter))
