"""One revision as its page shows it: its lines in words, its signature, and how it differs from the one in force."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Any

from django.http import Http404

from lims.people.days import today
from lims.people.models import Person
from lims.people.rules import refusal_of
from lims.products import queries
from lims.products.actions.approval import check_approval
from lims.products.deciding import rule_in_words
from lims.products.lines import Line
from lims.products.models import Requirement, Revision
from lims.record import queries as record
from lims.record.refusals import BadInput
from lims.record.words import in_words
from lims.screens.specifications import words
from lims.screens.specifications.forms import ApproveForm, DraftForm
from lims.screens.specifications.presenting import day, may
from specs.judging.rules import BY_THE_LIMITS, SIMPLE_ACCEPTANCE

State, Kind = Revision.State, Requirement.Kind
NEW, GONE, CHANGED = "new line", "line left out", "changed"


@dataclass(frozen=True)
class LineRow:
    """One requirement in words; `own` is what the product's own revision asks, where it differs."""

    line: Requirement
    must: str
    how: str
    asked: str
    band: str
    rule: str  # as one sentence, with its figures
    standing: str  # how surely it is known where it was copied from
    own: str = ""


@dataclass(frozen=True)
class Change:
    """One line of which a draft asks something else than the revision in force."""

    name: str
    kind: str
    parts: list[tuple[str, str, str]]  # what, old, new


why_not_approve = refusal_of(check_approval)


def revision_or_404(pk: int) -> Revision:
    found = (
        Revision.objects.filter(pk=pk)
        .select_related(
            "specification__product",
            "specification__customer",
            "approved_by",
            "signature",
        )
        .first()
    )
    if found is None:
        raise Http404
    return found


def line_or_404(pk: int) -> Requirement:
    found = (
        Requirement.objects.filter(pk=pk)
        .select_related(
            "characteristic",
            "edition__method",
            "revision__specification__product",
            "revision__specification__customer",
        )
        .first()
    )
    if found is None:
        raise Http404
    return found


def rows_of(revision: Revision) -> list[LineRow]:
    """The lines in words; a customer's beside what the product's own revision asks."""
    own: Revision | None = None
    if revision.specification.customer is not None:
        own = queries.in_force(revision.specification.product)
    asked = {_key(row): words.must(row) for row in _lines(own)}
    return [_row(row, asked) for row in _lines(revision)]


def _row(row: Requirement, own: Mapping[tuple[str, str], str]) -> LineRow:
    must = words.must(row)
    other = own.get(_key(row), "")
    return LineRow(
        row,
        must,
        words.how(row),
        words.asked(row),
        words.band(row),
        "" if row.rule == SIMPLE_ACCEPTANCE else rule_in_words(row),
        words.standing(row.origin_standing, row.origin_checked_by),
        other if other != must else "",
    )


def _lines(revision: Revision | None) -> Iterable[Requirement]:
    return queries.requirements_of(revision) if revision else ()


def _key(row: Requirement) -> tuple[str, str]:
    return row.characteristic.code, row.kind


def revision_page(revision: Revision, person: Person) -> dict[str, Any]:
    rows = rows_of(revision)
    return {
        "revision": revision,
        "version": revision.version,
        "product": revision.specification.product,
        "customer": revision.specification.customer,
        "rows": rows,
        "simply": BY_THE_LIMITS
        if any(row.line.rule == SIMPLE_ACCEPTANCE for row in rows)
        else "",
        "is_draft": revision.state == State.DRAFT,
        "in_force": queries.in_force(revision.specification)
        if revision.state != State.IN_FORCE
        else None,
        "answer": _answer(revision, rows),
        "may": may(person),
    }


def _answer(revision: Revision, rows: list[LineRow]) -> str:
    limits = sum(row.line.kind == Kind.LIMIT for row in rows)
    asks = f"{words.number_of(limits, 'limit')} must be met"
    if revision.state == State.DRAFT:
        return f"A draft: {asks} once it is approved. Until then no lot is held against it."
    if revision.state == State.IN_FORCE:
        return (
            f"{asks}, since {day(revision)}. A revision in force cannot change; "
            "open a draft."
        )
    return (
        f"In force from {day(revision)} until a later revision took its place. It cannot "
        "change; what was judged by it stays so."
    )


def approve_page(
    revision: Revision, person: Person, form: ApproveForm
) -> dict[str, Any]:
    """What is to be signed, what it changes, and why it cannot be signed now."""
    context = revision_page(revision, person)
    old = context["in_force"]
    return context | {
        "changes": differences(old, revision) if old else [],
        "sentence": _sentence(revision, person, context),
        "why_not": why_not_approve(revision, today(), today()),
        "since": entries_since(revision, form["stood"].value()),
        "version": revision.version,
    }


def _sentence(revision: Revision, person: Person, context: Mapping[str, Any]) -> str:
    old = context["in_force"]
    replaces = f" in place of revision {old.number}" if old else ""
    lines = words.number_of(len(context["rows"]), "line")
    return (
        f"I, {person.name}, {person.function}, reviewed and approve specification "
        f"{revision}, {lines}. From today it is in force{replaces}."
    )


def entries_since(revision: Revision, stood: Any) -> list[dict[str, Any]]:
    """What was done to the draft after the page was opened, the latest first."""
    if not str(stood or "").isdigit():
        return []
    found = record.entries(about=revision).filter(seq__gt=int(stood))[:20]
    return [
        {
            "words": in_words(entry.verb),
            "by": entry.printed_name,
            "at": record.at(entry),
        }
        for entry in found
    ]


def differences(old: Revision, new: Revision) -> list[Change]:
    """Line by line, what the new revision asks differently from the old."""
    before = {_key(row): row for row in _lines(old)}
    after = {_key(row): row for row in _lines(new)}
    found = [_compared(before.get(key), row) for key, row in after.items()]
    found += [_compared(row, None) for key, row in before.items() if key not in after]
    head = _head(old, new)
    return ([head] if head else []) + [it for it in found if it is not None]


def _head(old: Revision, new: Revision) -> Change | None:
    parts = _parts(
        {"part number": old.part_number or "none"},
        {"part number": new.part_number or "none"},
    )
    return Change("The customer's part number", CHANGED, parts) if parts else None


def _compared(old: Requirement | None, new: Requirement | None) -> Change | None:
    parts = _parts(_told(old), _told(new))
    row = new or old
    if row is None or not parts:
        return None
    if old and new:
        return Change(row.characteristic.in_full, CHANGED, parts)
    return Change(row.characteristic.in_full, NEW if new else GONE, parts[:1])


def _told(row: Requirement | None) -> dict[str, str]:
    if row is None:
        return {}
    told = {
        "asks": words.must(row),
        "method": str(row.edition or ""),
        "comparing": row.comparing,
        "rule": row.rule,
        "the rule rests on": words.rests_on(row),
        "asked": words.asked(row),
        "internal band": words.band(row),
        "typical": row.typical if row.kind != Kind.TYPICAL else "",
        "line": str(row.line),
        "copied from": words.origin(row),
    }
    return {key: text or "none" for key, text in told.items()}


def _parts(
    old: Mapping[str, str], new: Mapping[str, str]
) -> list[tuple[str, str, str]]:
    names = dict.fromkeys((*old, *new))
    pairs = [(name, old.get(name, ""), new.get(name, "")) for name in names]
    return [it for it in pairs if it[1] != it[2] and set(it[1:]) != {"", "none"}]


def next_number(numbers: Iterable[str]) -> str:
    """The number after the highest of those that are whole numbers; after a letter alone the next letter."""
    numbers = [text for text in numbers if text.isascii()]
    counted = [int(text) for text in numbers if text.isdigit()]
    letters = [
        text for text in numbers if len(text) == 1 and text in ascii_uppercase[:-1]
    ]
    if letters and not counted:
        return chr(ord(max(letters)) + 1)
    return str(max(counted, default=0) + 1)


def check_not_asked_yet(revision: Revision, line: Line) -> None:
    """Refuse a new line for what a line asks already: it would take the other's place unseen."""
    found = revision.requirements.filter(
        characteristic=line.characteristic, kind=line.kind
    ).first()
    if found is not None:
        raise BadInput(
            f"Line {found.line} is of this kind for “{line.characteristic.in_full}” "
            "already: change that line.",
            field="kind",
        )


def draft_now(revision: Revision) -> dict[str, Any]:
    """The head of a draft, by the names of the boxes."""
    return {name: getattr(revision, name) for name in DraftForm.base_fields}
