"""The first page of the day: for each role the answer to its question, and where to go on."""

import datetime as dt
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django.urls import reverse

from lims.batches.models import FillLot
from lims.certificates.queries import not_printed
from lims.decisions.queries import awaiting_decision, on_hold
from lims.instruments.queries import with_state
from lims.people.days import today
from lims.people.models import Person
from lims.people.queries import people
from lims.people.roles import ROLES
from lims.products.models import Revision
from lims.record import clock
from lims.record.queries import entries, tail
from lims.record.words import in_words
from lims.screens.bench import listing
from lims.screens.certificates import leaving
from lims.screens.certificates.words import left_words, quantity
from lims.screens.decisions import queue
from lims.screens.zone import zone
from lims.wording import dates, durations
from lims.wording.numbers import counts
from specs.judging.verdicts import WORST_FIRST

MOST = 6  # lines of a part; the place itself shows all


@dataclass(frozen=True)
class Line:
    """One thing of a part: what, more about it, its state, and where it stands."""

    words: str
    note: str = ""
    address: str = ""
    mark: str = ""
    aside: str = ""


@dataclass(frozen=True)
class Part:
    """One section of the page."""

    heading: str
    about: str
    lines: tuple[Line, ...]
    empty: str
    link: str
    link_words: str
    answer: str = ""


def context(person: Person) -> dict[str, Any]:
    """The parts of every role that somebody holds, each part once."""
    held = [role for role in ROLES if role in person.roles]
    makers = dict.fromkeys(make for role in held for make in HOMES[role])
    parts = [make() for make in makers]
    answer = next((part.answer for part in parts if part.answer), "")
    return {"parts": parts, "answer": answer, "has_role": bool(held)}


def due() -> Part:
    found = listing.bench()
    rows = [row for section in found.sections for row in section.rows]
    lines = tuple(
        Line(
            row.sample.number,
            "; ".join(each.words for each in row.wanted[:3]),
            reverse("bench:sample", args=[row.sample.number]),
            aside=durations.ahead(row.due_at, clock.now()),
        )
        for row in rows[:MOST]
    )
    going = tuple(
        Line(
            f"{each.test.characteristic.in_full}",
            f"{each.test.sample}, ends {_near(each.run.ends_at)}",
            reverse("bench:sample", args=[each.test.sample.number]),
            mark="running",
        )
        for each in found.running[:MOST]
    )
    return Part(
        "At the bench",
        "What is wanted first stands first; then what runs by the clock.",
        lines + going,
        "Nothing is due and nothing runs.",
        reverse("bench:list"),
        "Open the bench",
        found.answer,
    )


def _near(moment: dt.datetime) -> str:
    return dates.near(moment, clock.now(), zone())


def undecided() -> Part:
    waiting = awaiting_decision()
    count = Counter(each.verdict for each in waiting)
    lines = tuple(
        Line(
            f"{count[verdict]} fill lot{'s' if count[verdict] > 1 else ''}",
            ", ".join(str(each.lot) for each in waiting if each.verdict == verdict),
            reverse("decisions:list"),
            mark=str(verdict),
        )
        for verdict in WORST_FIRST
        if count[verdict]
    )
    return Part(
        "Awaiting a decision",
        "By the worst verdict of each lot.",
        lines,
        "No fill lot awaits a decision.",
        reverse("decisions:list"),
        "Open the decisions",
        queue.answer(count),
    )


def held() -> Part:
    lots = list(on_hold())
    return Part(
        "On hold",
        "Nothing of these may leave.",
        tuple(_lot_line(lot) for lot in lots[:MOST]),
        "No fill lot is on hold.",
        reverse("decisions:list"),
        "Open the decisions",
    )


def _lot_line(lot: FillLot) -> Line:
    since = _near(lot.state_since)
    return Line(
        str(lot),
        f"{lot.batch.product.code}, since {since}",
        reverse("batches:lot", args=[lot.number]),
        mark=lot.state,
    )


def drafts() -> Part:
    rows = list(
        Revision.objects.filter(state=Revision.State.DRAFT).select_related(
            "specification__product", "specification__customer"
        )[: MOST + 1]
    )
    number = len(rows)
    return Part(
        "Drafts of specifications",
        "A draft is in force once a quality manager approves it.",
        tuple(
            Line(str(row), row.note, reverse("specifications:list"), mark=row.state)
            for row in rows[:MOST]
        ),
        "No draft is being written.",
        reverse("specifications:list"),
        "Open the specifications",
        f"{number} draft{'s' if number > 1 else ''} of a specification "
        f"{'are' if number > 1 else 'is'} being written."
        if number
        else "No draft of a specification is being written.",
    )


def filled() -> Part:
    lots = FillLot.objects.select_related("batch__product").order_by("-filled_at")
    return Part(
        "Filled last",
        "What became of the newest fill lots.",
        tuple(
            Line(
                str(lot),
                f"{lot.batch.product.code}, filled {_near(lot.filled_at)}",
                reverse("batches:lot", args=[lot.number]),
                mark=lot.state,
            )
            for lot in lots[:MOST]
        ),
        "No fill lot is registered yet.",
        reverse("batches:list"),
        "Open the batches",
    )


def instruments() -> Part:
    rows = [row for row in with_state(on=today()) if not row.is_in_service]
    rows = [row for row in rows if row.state != row.instrument.State.RETIRED]
    return Part(
        "Instruments not to be used",
        "Overdue, or out of service.",
        tuple(
            Line(
                str(row.instrument),
                row.instrument.state_reason or row.instrument.kind,
                reverse("instruments:list"),
                mark=row.state,
            )
            for row in rows[:MOST]
        ),
        "Every instrument is in service.",
        reverse("instruments:list"),
        "Open the instruments",
    )


def can_leave() -> Part:
    lots = leaving.lots_with_packs_left()
    waiting = list(leaving.waiting_for_certificates()[: MOST + 1])
    lines = tuple(
        Line(
            str(lot),
            f"{lot.batch.product.code}, {left_words(lot, lot.left)} left",  # type: ignore[attr-defined]
            reverse("certificates:allot", args=[lot.number]),
            aside=f"leaves {_day(lot.leaves_on)}" if lot.leaves_on else "",
        )
        for lot in lots[:MOST]
    )
    papers = not_printed()
    return Part(
        "What can leave",
        "Released, with packs left; what must leave first stands first.",
        lines,
        "Nothing that is released has packs left.",
        reverse("certificates:can-leave"),
        "Open what can leave",
        leaving.answer(lots.count(), len(waiting), papers.count()),
    )


def _day(day: dt.date) -> str:
    return dates.day(day, zone(), year=False)


def papers() -> Part:
    waiting = [
        Line(
            f"{each.customer}, order {each.order}",
            f"{quantity(each)} of {each.fill_lot}: no certificate yet",
            reverse("certificates:allotment", args=[each.pk]),
        )
        for each in leaving.waiting_for_certificates()[:MOST]
    ]
    printing = [
        Line(
            str(each),
            "issued and still to be printed",
            reverse("certificates:one", args=[each.certificate.number]),
        )
        for each in not_printed()[:MOST]
    ]
    return Part(
        "Papers to see to",
        "Packs that wait for a certificate, and papers that are not printed.",
        tuple(printing + waiting),
        "Every order has its certificate, and every certificate its file.",
        reverse("certificates:list"),
        "Open the certificates",
    )


def record() -> Part:
    told = entries()[:MOST]
    return Part(
        "Latest entries of the record",
        "Who did what, newest first.",
        tuple(
            Line(
                in_words(entry.verb),
                f"{entry.about_name}, {entry.printed_name}",
                aside=f"entry {counts(entry.seq)}",
            )
            for entry in told
        ),
        "The record is empty.",
        reverse("record:list"),
        "Open the record",
        f"The record stands at entry {counts(tail().seq)}.",
    )


def accounts() -> Part:
    everybody = list(people())
    invited = [each for each in everybody if each.is_active and each.invited]
    active = sum(each.is_active and not each.invited for each in everybody)
    told = f"{active} {'people work' if active != 1 else 'person works'} here"
    if invited:
        told += f"; {len(invited)} invited and without a password yet"
    return Part(
        "Invited, no password yet",
        "The link of an invitation is good for three days.",
        tuple(
            Line(each.name, each.account, reverse("setup:list"))
            for each in invited[:MOST]
        ),
        "Everybody who was invited has chosen a password.",
        reverse("setup:list"),
        "Open the set-up",
        f"{told}.",
    )


HOMES: Mapping[str, tuple[Callable[[], Part], ...]] = {
    "technician": (due,),
    "laboratory_manager": (undecided, held, instruments, due),
    "quality_manager": (undecided, held, drafts, instruments),
    "technologist": (drafts, filled),
    "despatch": (can_leave, papers),
    "auditor": (record, undecided),
    "administrator": (accounts, record),
}
