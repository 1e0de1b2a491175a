"""Approving: a draft comes into force with a signature, and the one before is superseded."""

import datetime as dt

from lims.people.days import today
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products import queries, rules, signing, widths
from lims.products.models import Revision
from lims.record.gate import entry
from lims.record.refusals import ChangedSince
from lims.record.signatures import sign


def approve_revision(
    *,
    revision: Revision,
    password: str,
    in_force_on: dt.date | None = None,
    version: int | None = None,
    by: Person,
) -> Revision:
    """Put a draft in force today; the signature is bound to its lines as they were seen.

    The revision in force until now is superseded in the same entry.
    """
    check(by, Permission.APPROVE_SPECIFICATIONS)
    day = in_force_on or today()
    check_approval(revision, day, today())
    seen = revision.version if version is None else version
    old = queries.in_force(revision.specification)
    with entry(by=by, verb="revision_approved", about=revision) as it:
        _check_still_at(revision, seen)
        signature = sign(
            by=by,
            password=password,
            meaning=signing.MEANING,
            about=revision,
            version=seen,
            content=signing.content_of(revision, day),
        )
        if old is not None:
            old.state = Revision.State.SUPERSEDED
            old.save_if_version(old.version)
        revision.state = Revision.State.IN_FORCE
        revision.in_force_on, revision.signature = day, signature
        revision.approved_at, revision.approved_by = it.at, by
        revision.save_if_version(seen)
    return revision


def check_approval(revision: Revision, day: dt.date, today: dt.date) -> None:
    """Refuse approving what is no draft, asks for nothing, or does not fit beside the others."""
    rules.check_is_draft(revision)
    rules.check_has_lines(revision)
    rules.check_day(day, today)
    specification = revision.specification
    if specification.customer is not None:
        own = queries.in_force(specification.product)
        widths.check_inside_own(revision, own)
    else:
        others = queries.customers_in_force(specification.product)
        widths.check_customers_inside(revision, others)


def _check_still_at(revision: Revision, seen: int) -> None:
    """Look at the stored version before signing: the lines are read from the database."""
    stored = Revision.objects.get(pk=revision.pk).version
    if stored != seen:
        raise ChangedSince(
            f"Revision {revision.number} was changed by somebody else since you opened "
            "it. Look at it as it is now, then decide again."
        )
