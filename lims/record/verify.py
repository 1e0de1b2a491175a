"""Does the record hold? Walks the chain, the triggers, the signatures and what other rooms add."""

import json
from collections.abc import Callable
from typing import NamedTuple

from lims.record import bulk, doors, signatures, triggers
from lims.record.differences import shown, state_of
from lims.record.models import Entry, Signature
from specs import chain

USING = "default"
SIGNATURE = "record.Signature"
COLUMNS = (
    "seq",
    "at",
    "account",
    "printed_name",
    "verb",
    "about_kind",
    "about_key",
    "about_name",
    "reason",
    "note",
)


class Finding(NamedTuple):
    """What one check says: a line for the report, and the first thing that is wrong."""

    line: str
    wrong: str | None = None


class Report(NamedTuple):
    """The lines of all checks, and the first thing that is wrong, if anything is."""

    lines: list[str]
    first_wrong: str | None

    @property
    def holds(self) -> bool:
        return self.first_wrong is None


Check = Callable[[], Finding]
Given = dict[str, dict[str, str | None]]  # signatures as the record tells of them
_further: list[Check] = []


def register_check(check: Check) -> Check:
    """Add a room's own check, for instance of the certificates' files."""
    if check not in _further:
        _further.append(check)
    return check


def verify() -> Report:
    """Run every check; all of them, also after the first that finds something."""
    given: Given = {}
    together: list[bulk.Claim] = []
    findings = [_chain(given, together), _guards(), _signatures(given)]
    findings.append(_together(together))
    findings += [check() for check in _further]
    lines = [
        finding.line if finding.wrong is None else f"{finding.line}: {finding.wrong}"
        for finding in findings
    ]
    wrong = [finding.wrong for finding in findings if finding.wrong is not None]
    return Report(lines, wrong[0] if wrong else None)


def _chain(given: Given, together: list[bulk.Claim]) -> Finding:
    seq, head = 0, chain.FIRST_HEAD
    for entry in Entry.objects.order_by("seq").iterator(chunk_size=2000):
        seq += 1
        wrong = _broken_link(entry, seq, head) or _wrong_columns(entry, given, together)
        if wrong:
            return Finding("The record", wrong)
        head = entry.hash
    return Finding(f"The record: {seq} entries, unbroken, head {head}")


def _broken_link(entry: Entry, seq: int, head: str) -> str | None:
    if entry.seq != seq:
        return f"entry {seq} is missing; the next one there is {entry.seq}"
    if entry.previous != head:
        return f"entry {seq} does not follow entry {seq - 1}"
    if entry.hash != chain.next_head(head, entry.content.encode()):
        return f"entry {seq} is not as it was written"
    return None


def _wrong_columns(
    entry: Entry, given: Given, together: list[bulk.Claim]
) -> str | None:
    told = json.loads(entry.content)
    for name in COLUMNS:
        if told[name] != getattr(entry, name):
            return f"entry {entry.seq} shows another {name} than its content"
    for change in told["changes"]:
        if change["model"] == SIGNATURE:
            given.setdefault(change["id"], {})[change["field"]] = change["after"]
        try:
            claim = bulk.claim_of(change)
        except ValueError as found:
            return f"entry {entry.seq} tells of {found}"
        if claim is not None:
            together.append(claim)
    return None


def _together(claims: list[bulk.Claim]) -> Finding:
    count = sum(claim.number for claim in claims)
    for claim in claims:
        wrong = bulk.wrong_with(claim)
        if wrong:
            return Finding("Rows added together", wrong)
    return Finding(f"Rows added together: {count}, as they were added")


def _guards() -> Finding:
    absent = triggers.missing(USING)
    if absent:
        return Finding("The triggers", f"{absent[0]} is missing or altered")
    if doors.stands_open(USING):
        return Finding("The triggers", "the gate stands open outside an entry")
    return Finding(f"The triggers: all {len(triggers.expected(USING))} stand")


def _signatures(given: Given) -> Finding:
    count = 0
    for signature in Signature.objects.order_by("id").iterator(chunk_size=500):
        count += 1
        wrong = _wrong_signature(signature, given.pop(str(signature.pk), {}))
        if wrong:
            return Finding(
                "The signatures",
                f"signature {signature.pk} ({signature.printed_name}, "
                f"{signature.about_kind} {signature.about_key}) {wrong}",
            )
    if given:
        return Finding("The signatures", f"signature {min(given, key=int)} is gone")
    return Finding(f"The signatures: {count}, each on what it was given for")


def _wrong_signature(signature: Signature, told: dict[str, str | None]) -> str | None:
    if signature.content_hash != signatures.hash_of(signature.content):
        return "is not on the content that was signed"
    if not signatures.hangs_where_it_was_given(signature):
        return "hangs on something else than it was given for"
    if not told:
        return "is not told by any entry of the record"
    stands = state_of(signature)
    for field, text in told.items():
        if shown(Signature, field, stands[field]) != text:
            return f"shows another {field} than the record tells"
    return None
