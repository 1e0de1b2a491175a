"""The panel for signing: which dispositions are possible, the sentence of each, and the form."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import QuerySet

from lims.batches.models import FillLot
from lims.batches.moves import MOVES
from lims.decisions import rules
from lims.decisions.models import Decision
from lims.decisions.review import Review
from lims.people.models import Person
from lims.people.permissions import Permission
from lims.people.roles import ROLES
from lims.people.rules import refusal_of
from lims.record import queries as record
from lims.record.words import in_words
from lims.screens import zone
from lims.screens.decisions import words
from lims.screens.decisions.forms import SignForm
from lims.screens.decisions.rests import rests_on

State = FillLot.State
Disposition = Decision.Disposition
why_not_release = refusal_of(rules.check_release)
ASKED = "asked for in the form"
BUTTONS = {
    Disposition.RELEASE: "Sign and release",
    Disposition.HOLD: "Sign and put on hold",
    Disposition.END_HOLD: "Sign and end the hold",
}


@dataclass(frozen=True)
class Panel:
    """What somebody who may sign sees beneath a review."""

    form: SignForm
    closed: frozenset[str]
    sentences: Mapping[str, str]
    buttons: Mapping[str, str]
    rests: list[dict[str, str]]
    version: int


def panel_for(
    review: Review,
    context: Mapping[str, Any],
    by: Person,
    sent: Mapping[str, Any] | None = None,
) -> Panel:
    """The panel with what was typed before, where the page comes back after a refusal."""
    asks_alone = _asks_alone(review.lot, by)
    offered, closed = _offered(review, by, asks_alone=asks_alone)
    form = SignForm(
        sent,
        offered=offered,
        closed=closed,
        asks_alone=asks_alone,
        name=by.name,
        initial={
            "disposition": next((key for key in offered if key not in closed), None),
            "seen": review.seen,
            "stood": record.tail().seq,
        },
    )
    return Panel(
        form,
        closed,
        {key: _sentence(key, review, context, by) for key in offered},
        {key: BUTTONS[Disposition(key)] for key in offered},
        rests_on(review, context),
        review.lot.version,
    )


def _asks_alone(lot: FillLot, by: Person) -> bool:
    """Whether a site that lets a deputy decide alone asks this person why."""
    site = zone.site()
    allows = site is not None and site.allow_deputy_alone
    return allows and rules.recorded_here(lot, by)


def _offered(
    review: Review, by: Person, *, asks_alone: bool
) -> tuple[dict[str, str], frozenset[str]]:
    """The dispositions to choose from, each with its note, and those that are closed."""
    state = State(review.lot.state)
    if state == State.ON_HOLD:
        note = "Back to its tests, or to a decision when all of them are reported."
        return {Disposition.END_HOLD: note}, frozenset()
    offered: dict[str, str] = {}
    closed: set[str] = set()
    if state in (State.ON_TEST, State.AWAITING_DECISION):
        why_not = why_not_release(
            review, by=by, alone_reason=ASKED if asks_alone else ""
        )
        offered[Disposition.RELEASE] = why_not or (
            f"Certificates may be issued. {words.packs(review.lot)} can be allotted to orders."
        )
        if why_not:
            closed.add(Disposition.RELEASE)
    if (state, State.ON_HOLD) in MOVES:
        offered[Disposition.HOLD] = "Nothing may leave until a new decision."
    return offered, frozenset(closed)


def _sentence(
    disposition: str, review: Review, context: Mapping[str, Any], by: Person
) -> str:
    """What is signed, in the first person; the fill lot's number follows in the template."""
    lot = review.lot
    who = f"I, {by.name}, {by.function},"
    if disposition == Disposition.HOLD:
        return (
            f"{who} put fill lot {lot}, {words.packs(lot)}, on hold: nothing of it may "
            "leave until a new decision."
        )
    if disposition == Disposition.END_HOLD:
        return (
            f"{who} end the hold of fill lot {lot}: it goes back to its tests, or to a "
            "decision when all of them are reported."
        )
    own = review.own
    against = own.revision if own else "no specification"
    return (
        f"{who} release fill lot {lot}, {words.packs(lot)}, because it meets {against}: "
        f"{words.counts_truly(context['rows']).replace(':', ',', 1)}."
    )


def who_can_sign() -> list[Person]:
    """The active persons whose roles let them authorise."""
    keys = [
        role.key
        for role in ROLES.values()
        if Permission.AUTHORISE_LOTS in role.permissions
    ]
    found: QuerySet[Person] = Person.objects.filter(
        is_active=True,
        invited=False,
        roles_given__role__in=keys,
        roles_given__taken_at=None,
    )
    return list(found.distinct().prefetch_related("roles_given"))


def entries_since(lot: FillLot, seq: int | None) -> list[dict[str, Any]]:
    """What was done about a lot after the page was opened, the latest first."""
    if seq is None:
        return []
    return [
        {
            "words": in_words(entry.verb),
            "name": entry.about_name,
            "by": entry.printed_name,
            "reason": entry.reason,
            "at": record.at(entry),
        }
        for entry in record.entries(about=lot).filter(seq__gt=seq)[:20]
    ]
