"""Differences as a reader sees them: the few that matter in a list, all of them on the page of an entry."""

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from django.apps import apps

from lims.record.models import Entry
from lims.record.telling import Told
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import unit_shown

SIGNATURE = "record.Signature"
MOST_SHOWN = 6
LONGEST = 160
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|\+00:00)")
DAY = re.compile(r"\d{4}-\d\d-\d\d")
HASH = re.compile(r"(sha256:)?[0-9a-f]{64}")
EMPTY = {"", "no", "[]", "{}"}
KEYS = {"slot", "key"}  # short names with underscores, as the methods have them
UNSAID = {"version", "state since", "is complete"}  # they follow from the rest
FIGURE = re.compile(r"-?\d+\.\d{9,}")


@dataclass(frozen=True)
class Difference:
    """One line: a name, what stood there before, what stands there now."""

    words: str
    before: str | None
    after: str | None


@dataclass(frozen=True)
class Changed:
    """One thing with all its differences, for the page of an entry."""

    kind: str
    name: str
    differences: list[Difference]


def brief(entry: Entry, told: Sequence[Told]) -> tuple[list[Difference], int]:
    """The differences that matter, changes before what is new, and how many more there are."""
    read, rest = _readings(told)
    shown = [one for one in rest if _matters(one, entry)]
    shown.sort(key=lambda one: one.before is None)
    lines = _once([*read, *(_line(one, in_list=True) for one in shown)])
    return lines[:MOST_SHOWN], max(len(lines) - MOST_SHOWN, 0)


def _readings(told: Sequence[Told]) -> tuple[list[Difference], list[Told]]:
    """What was typed into a box as one line, `cone 3` and `279`; and all the rest."""
    rows: dict[tuple[str, str], dict[str, str]] = {}
    for one in told:
        rows.setdefault((one.model, one.id), {})[one.field] = one.after or ""
    typed = {
        place: (row.get("slot") or row.get("key") or "", row)
        for place, row in rows.items()
        if "text" in row and ("slot" in row or "key" in row)
    }
    lines = [
        Difference(
            name.replace("_", " "),
            None,
            f"{row['text']} {unit_shown(row.get('unit', ''))}".strip(),
        )
        for name, row in typed.values()
    ]
    return lines, [one for one in told if (one.model, one.id) not in typed]


def _once(lines: Iterable[Difference]) -> list[Difference]:
    """Equal lines once, with how many there are: five tests are authorised by one act."""
    count = Counter(lines)
    return [
        replace(line, words=f"{line.words}, {many} of them") if many > 1 else line
        for line, many in count.items()
    ]


def whole(told: Iterable[Told]) -> list[Changed]:
    """All the differences, by the thing they belong to."""
    found: dict[tuple[str, str], Changed] = {}
    for one in told:
        changed = found.setdefault(
            (one.model, one.id), Changed(kind_of(one.model), one.thing, [])
        )
        changed.differences.append(_line(one))
    return list(found.values())


def signed_as(told: Iterable[Told]) -> dict[str, str]:
    """What an entry says of the signature given in it; nothing if there is none."""
    return {one.field: one.after or "" for one in told if one.model == SIGNATURE}


def kind_of(model: str) -> str:
    """A table by its word; one that is gone by the name that the record has."""
    try:
        return str(apps.get_model(model)._meta.verbose_name)
    except LookupError:
        return model


def _matters(one: Told, entry: Entry) -> bool:
    if one.model == SIGNATURE or one.field in UNSAID:
        return False
    after = one.after or ""
    if after.startswith(("[", "{")) or HASH.fullmatch(after):
        return False
    if one.before is not None:
        return True
    told_already = {entry.at, entry.printed_name, entry.about_name, one.thing}
    told_already |= {entry.about_key, entry.note, entry.reason} - {""}
    return after not in EMPTY and after not in told_already


def _line(one: Told, *, in_list: bool = False) -> Difference:
    words = one.field
    before, after = (_shown(words, text) for text in (one.before, one.after))
    if in_list:
        words = kind_of(one.model) if words == "state" else words
        before, after = (_shortened(text) for text in (before, after))
    return Difference(words, before, after)


def _shortened(text: str | None) -> str | None:
    """A list shows the first decimals of an exact value; the page of the entry shows them all."""
    if text is not None and FIGURE.fullmatch(text):
        return f"{text[: text.index('.') + 5]}…"
    return text


def _shown(words: str, text: str | None) -> str | None:
    if text is None:
        return None
    if words in KEYS:
        return text.replace("_", " ")
    if MOMENT.fullmatch(text):
        moment = dt.datetime.fromisoformat(text)
        return dates.day_time(moment, zone(), seconds=True)
    if DAY.fullmatch(text):
        return dates.day(dt.date.fromisoformat(text), zone())
    return f"{text[:LONGEST]}…" if len(text) > LONGEST else text
