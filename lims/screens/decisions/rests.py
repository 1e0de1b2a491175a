"""What a signature would rest on, worst first: it stands beside the sentence that is signed."""

from collections.abc import Mapping
from typing import Any

from lims.decisions.evidence import ON_BATCH, ON_LOT, PERIODIC
from lims.decisions.review import Review
from lims.instruments.models import Instrument
from lims.screens.decisions import words
from lims.screens.decisions.lines import Row
from lims.wording import numbers


def rests_on(review: Review, context: Mapping[str, Any]) -> list[dict[str, str]]:
    """What a signature would rest on, worst first: a mark where there is one, and words."""
    rows = words.counting(context["rows"])
    told = [
        {"mark": row.verdict, "text": _blocking(row)}
        for row in rows
        if row.verdict != "met"
    ]
    for evidence in (ON_LOT, ON_BATCH, PERIODIC):
        of_it = [
            row for row in rows if row.verdict == "met" and row.evidence == evidence
        ]
        if of_it:
            told.append({"mark": "met", "text": f"{len(of_it)} {evidence}"})
    told += _marked(review, context)
    return told


def _blocking(row: Row) -> str:
    tail = numbers.shown(row.value, signed=row.signed) or row.why
    return f"{row.name}: {tail}" if tail else row.name


def _marked(review: Review, context: Mapping[str, Any]) -> list[dict[str, str]]:
    only = sum(row.is_report_only for row in context["rows"])
    aside = len(review.set_aside)
    changes = len(review.changes)
    recalled = sum(bool(row.from_memory) for row in context["rows"])
    told = []
    if recalled:
        told.append({"lead": "from memory", "text": _recalled(recalled)})
    if only:
        told.append({"lead": "no verdict", "text": f"{only} reported only"})
    if aside:
        told.append({"mark": "set aside", "text": f"{aside} set{'s' * (aside > 1)}"})
    if changes:
        told.append({"lead": "changed", "text": f"{changes} after saving, with reason"})
    told += [
        {"mark": used.state, "text": f"{used.instrument} when it was used"}
        for used in context["instruments"]
        if used.state != Instrument.State.IN_SERVICE
    ]
    if not review.retains:
        allowed = review.exception.reason if review.exception else ""
        text = f"none, allowed: {allowed}" if allowed else "none is kept"
        told.append({"lead": "retain", "text": text})
    return told


def _recalled(count: int) -> str:
    """How many lines rest on a figure that nobody compared with the laboratory's own copy."""
    rest = "line rests" if count == 1 else "lines rest"
    return f"{count} {rest} on figures that no named person has checked"
