"""Lists and objects that a field holds, as a reader sees them: item by item, and of two only what differs."""

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

Item = Mapping[str, str]

# What says which figure of a method it is; the rest is what it says.
NAMING = {
    "characteristic": "{}",
    "what": "{}",
    "level_from": "from {}",
    "level_to": "to {}",
}
MOST_ITEMS = 6


def differing(before: str | None, after: str | None) -> tuple[str, str | None] | None:
    """What stands in one of two texts and not in the other; None where neither holds items."""
    old, new = _items(before), _items(after)
    if old is None and new is None:
        return None
    gone = [it for it in old or () if it not in (new or ())]
    come = [it for it in new or () if it not in (old or ())]
    return _told(gone, come), None if after is None else _told(come, gone)


def _items(text: str | None) -> list[Item] | None:
    """The items of a list of objects, or the keys of an object; None of any other text."""
    if not text or not text.startswith(("[{", "{")):
        return None
    try:
        found = json.loads(text)
    except ValueError:
        return None
    if isinstance(found, dict):
        return [{"": f"{_words(key)} {_shown(it)}"} for key, it in found.items()]
    if not all(isinstance(it, dict) for it in found):
        return None
    return [{key: _shown(it) for key, it in one.items()} for one in found]


def _shown(value: Any) -> str:
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _words(key: str) -> str:
    return key.replace("_", " ")


def _told(items: Sequence[Item], others: Sequence[Item]) -> str:
    """Items in words; of one that stands among the others too, only what it says differently."""
    told = [_item(it, _namesake(it, others)) for it in items[:MOST_ITEMS]]
    more = len(items) - len(told)
    return "; ".join([*told, f"and {more} more"] if more > 0 else told)


def _namesake(item: Item, others: Sequence[Item]) -> Item:
    name = _name(item)
    return next((it for it in others if name and _name(it) == name), {})


def _item(item: Item, other: Item) -> str:
    rest = ", ".join(_rest(item, other))
    return ": ".join(filter(None, (_name(item), rest)))


def _name(item: Item) -> str:
    words = (form.format(item[key]) for key, form in NAMING.items() if item.get(key))
    return ", ".join(words).replace("-", " ")


def _rest(item: Item, other: Item) -> Iterator[str]:
    """What an item says, its value first and its source, the longest, last."""
    for key in sorted(item, key=lambda it: (it != "value", it == "source")):
        if key not in NAMING and item[key] and item[key] != other.get(key):
            yield f"{_words(key)} {item[key]}".strip()
