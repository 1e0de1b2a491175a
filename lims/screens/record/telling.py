"""Differences as a reader sees them: the few that matter in a list, all of them on the page of an entry."""

import datetime as dt
import json
import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.apps import apps

from lims.record.differences import HIDDEN
from lims.record.models import Entry
from lims.record.telling import Told
from lims.screens.record.lists import differing
from lims.screens.record.plain import KINDS, SIGNATURE, VERDICT, is_folded, words_of
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import unit_shown

MOST_SHOWN = 6
MOST_ON_ITS_PAGE = 60
LONGEST = 160
LONGEST_ITEMS = 400  # of what differs between two lists
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|\+00:00)")
DAY = re.compile(r"\d{4}-\d\d-\d\d")
HASH = re.compile(r"(sha256:)?[0-9a-f]{64}")
EMPTY = {"", "no", "[]", "{}"}
KEYS = {"slot", "key"}  # short names with underscores, as the methods have them
FIGURE = re.compile(r"-?\d+\.\d{9,}")
CAN_COUNT = {"", "in service"}


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


def brief(
    entry: Entry, told: Sequence[Told], *, most: int = MOST_SHOWN
) -> tuple[list[Difference], int]:
    """The differences that matter, changes before what is new, and how many more there are."""
    read, rest = _readings(told)
    shown = [one for one in rest if _matters(one, entry)]
    shown.sort(key=lambda one: not one.before)
    lines = _once([*read, *(_line(one, in_list=True) for one in shown)])
    return lines[:most], max(len(lines) - most, 0)


def _readings(told: Sequence[Told]) -> tuple[list[Difference], list[Told]]:
    """What was typed into a box as one line, `cone 3` and `279`; and all the rest."""
    rows: dict[tuple[str, str], dict[str, Told]] = defaultdict(dict)
    for one in told:
        rows[one.model, one.id][one.field] = one
    typed = {
        place: row for place, row in rows.items() if "text" in row and KEYS & set(row)
    }
    lines = [_typed(row) for row in typed.values()]
    return lines, [one for one in told if (one.model, one.id) not in typed]


def _typed(row: Mapping[str, Told]) -> Difference:
    now = {field: one.after or "" for field, one in row.items()}
    then = {
        field: one.after if one.before is None else one.before
        for field, one in row.items()
    }
    is_corrected = any(
        row[field].before is not None
        for field in ("text", "unit", "instrument state")
        if field in row
    )
    name = now.get("slot") or now.get("key") or ""
    before = _as_typed(then) if is_corrected else None
    return Difference(name.replace("_", " "), before, _as_typed(now))


def _as_typed(row: Mapping[str, str | None]) -> str:
    """`279 × 0.1 mm`; of an instrument that could not count also its state, `W-2, overdue`."""
    text = f"{row.get('text') or ''} {unit_shown(row.get('unit') or '')}".strip()
    state = row.get("instrument state") or ""
    return text if state in CAN_COUNT else f"{text}, {state}"


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


def signed_lines(told: Iterable[Told]) -> list[tuple[str, str]]:
    """The lines that a decision was signed on: the requirement, then `280, met`."""
    rows: dict[str, dict[str, str]] = defaultdict(dict)
    for one in told:
        if one.model == VERDICT:
            rows[one.id][one.field] = one.after or ""
    return [
        (row["requirement"], found)
        for row in rows.values()
        if (found := _found(row.get("reported", ""), row.get("verdict", "")))
    ]


def _found(reported: str, verdict: str) -> str:
    """`280, met`; what is judged by words is reported as its verdict, and said once."""
    return ", ".join(dict.fromkeys(filter(None, (reported, verdict))))


def kind_of(model: str) -> str:
    """A table by its word; one that is gone by the name that the record has."""
    if model in KINDS:
        return KINDS[model]
    try:
        return str(apps.get_model(model)._meta.verbose_name)
    except LookupError:
        return model


def _matters(one: Told, entry: Entry) -> bool:
    after = one.after or ""
    if is_folded(one) or HASH.fullmatch(after):
        return False
    if after.startswith(("[", "{")):
        is_said = bool(_sentences(after) or _sentences(one.before or ""))
        return is_said or bool(one.before and differing(one.before, after))
    who_and_when = one.field.endswith((" at", " by", "reason"))
    if one.before and not who_and_when:
        return True
    told_already = {entry.at, entry.printed_name, entry.about_name, one.thing}
    told_already |= {entry.about_key, entry.note, entry.reason} - {""}
    return after not in EMPTY and after not in told_already


def _line(one: Told, *, in_list: bool = False) -> Difference:
    words = words_of(one)
    is_said = _sentences(one.after or one.before or "")
    items = None if is_said else differing(one.before, one.after)
    most = LONGEST_ITEMS if items else LONGEST
    before, after = (
        _shown(one.field, text, most) for text in items or (one.before, one.after)
    )
    if HIDDEN in (one.before, one.after):
        before, after = None, "changed; it is never shown"
    if in_list:
        words = kind_of(one.model) if one.field == "state" else words
        before, after = (_shortened(text) for text in (before, after))
    return Difference(words, before or None, after)


def _shortened(text: str | None) -> str | None:
    """A list shows the first decimals of an exact value; the page of the entry shows them all."""
    if text is not None and FIGURE.fullmatch(text):
        return f"{text[: text.index('.') + 5]}…"
    return text


def _shown(field: str, text: str | None, most: int) -> str | None:
    if text is None:
        return None
    if field in KEYS:
        return text.replace("_", " ")
    if MOMENT.fullmatch(text):
        moment = dt.datetime.fromisoformat(text)
        return dates.day_time(moment, zone(), seconds=True)
    if DAY.fullmatch(text):
        return dates.day(dt.date.fromisoformat(text), zone())
    text = " ".join(_sentences(text)) or ("" if text in ("[]", "{}") else text)
    return f"{text[:most]}…" if len(text) > most else text


def _sentences(text: str) -> list[str]:
    """The sentences of a list, such as why a set cannot count; nothing of any other text."""
    if not text.startswith("["):
        return []
    try:
        found = json.loads(text)
    except ValueError:
        return []
    said = [each.get("sentence") if isinstance(each, dict) else each for each in found]
    told = [each for each in said if isinstance(each, str)]
    return told if len(told) == len(said) else []
