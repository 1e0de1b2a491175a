"""The first page of despatch, auditors and administrators."""

import datetime as dt

from django.urls import reverse

from lims.certificates.queries import lots_with_packs_left, not_printed
from lims.people.queries import people
from lims.record.queries import entries, tail
from lims.record.words import in_words
from lims.screens.certificates import leaving
from lims.screens.certificates.words import left_words, quantity
from lims.screens.front.home_parts import MOST, Line, Part
from lims.screens.zone import zone
from lims.wording import dates
from lims.wording.numbers import counts


def can_leave() -> Part:
    lots = lots_with_packs_left()
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
