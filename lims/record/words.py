"""Verbs of the record in words. Each room registers its own in its `verbs.py`."""

from collections.abc import Mapping

VERBS: dict[str, str] = {}


def register(verbs: Mapping[str, str]) -> None:
    """Add a room's verbs: `{"lot_authorised": "Fill lot authorised"}`. A verb has one sentence."""
    for verb, words in verbs.items():
        if VERBS.setdefault(verb, words) != words:
            raise ValueError(f"The verb “{verb}” already means “{VERBS[verb]}”.")


def in_words(verb: str) -> str:
    """What a verb says to a reader; a verb that nobody registered raises LookupError."""
    try:
        return VERBS[verb]
    except KeyError:
        raise LookupError(f"The verb “{verb}” is not registered.") from None
