"""The first page of those who test, decide and specify."""

from collections import Counter

from django.urls import reverse

from lims.batches.models import FillLot
from lims.decisions.queries import awaiting_decision, on_hold
from lims.instruments.queries import Standing, with_state
from lims.instruments.reference_queries import Missing, missing
from lims.people.days import today
from lims.products.models import Revision
from lims.record import clock
from lims.screens.bench import listing
from lims.screens.decisions import queue
from lims.screens.front.home_parts import MOST, Line, Part, near
from lims.wording import durations
from specs.judging.verdicts import WORST_FIRST


def due() -> Part:
    found = listing.bench()
    rows = [row for section in found.sections for row in section.rows]
    return Part(
        "At the bench",
        "What is wanted first stands first; then what runs by the clock.",
        (
            *(_wanted(row) for row in rows[:MOST]),
            *_more(len(rows), "sample"),
            *(_going(each) for each in found.running[:MOST]),
            *_more(len(found.running), "run"),
        ),
        "Nothing is due and nothing runs.",
        reverse("bench:list"),
        "Open the bench",
        found.answer,
    )


def _wanted(row: listing.Row) -> Line:
    return Line(
        row.sample.number,
        "; ".join(each.words for each in row.wanted[:3]),
        reverse("bench:sample", args=[row.sample.number]),
        aside=durations.ahead(row.due_at, clock.now()),
    )


def _going(each: listing.Going) -> Line:
    """A test that runs by the clock; one whose run has ended waits for its reading."""
    sample, ends = each.test.sample, near(each.run.ends_at)
    has_ended = each.run.has_ended
    told = f"ended {ends}" if has_ended else f"ends {ends}"
    return Line(
        each.test.characteristic.in_full,
        f"{sample}, {told}",
        reverse("bench:sample", args=[sample.number]),
        mark="" if has_ended else "running",
        aside="read it now" if has_ended else "",
    )


def _more(number: int, thing: str) -> tuple[Line, ...]:
    """How many more the bench lists."""
    more = number - MOST
    if more <= 0:
        return ()
    things = thing if more == 1 else f"{thing}s"
    return (Line(f"and {more} more {things}", address=reverse("bench:list")),)


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
    since = near(lot.state_since)
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
            Line(
                str(row),
                row.note,
                reverse("specifications:revision", args=[row.pk]),
                mark=row.state,
            )
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
                f"{lot.batch.product.code}, filled {near(lot.filled_at)}",
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
    rows = [
        row
        for row in with_state(on=today())
        if row.state != row.instrument.State.RETIRED
    ]
    lines = (
        *(_not_to_be_used(row) for row in rows if not row.is_in_service),
        *(_missing(it) for it in missing(on=today())),
        *(_soon(row) for row in rows if row.is_soon),
    )
    return Part(
        "Instruments",
        "Overdue or out of service, reference readings missing today, checks due soon.",
        lines[: 2 * MOST],
        "Every instrument is in service, and no reading is missing.",
        reverse("instruments:list"),
        "Open the instruments",
    )


def _not_to_be_used(row: Standing) -> Line:
    return Line(
        str(row.instrument),
        row.instrument.state_reason or row.instrument.kind,
        reverse("instruments:one", args=[row.instrument.number]),
        mark=row.state,
    )


def _missing(it: Missing) -> Line:
    last = f"last on {it.last.isoformat()}" if it.last else "never read on it"
    return Line(
        str(it.instrument),
        f"{it.material} is to be read, {last}",
        reverse("instruments:chart", args=[it.instrument.number]),
        aside="reading missing",
    )


def _soon(row: Standing) -> Line:
    due = row.instrument.due_on
    return Line(
        str(row.instrument),
        row.instrument.kind,
        reverse("instruments:one", args=[row.instrument.number]),
        aside=f"check by {due.isoformat()}" if due else "",
    )
