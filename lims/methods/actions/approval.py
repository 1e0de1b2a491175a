"""Approving figures: a draft comes into force with a signature, and the revision before is superseded."""

from lims.methods import moves, queries, signing
from lims.methods.models import FiguresRevision
from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.record.gate import entry
from lims.record.signatures import sign


def approve_figures(
    *,
    revision: FiguresRevision,
    password: str,
    version: int | None = None,
    by: Person,
) -> FiguresRevision:
    """Put a draft of figures in force; the signature is bound to every figure as it was seen.

    Whoever drafted it may approve it. The revision in force until now is superseded in
    the same entry; results that were reported by it stay as they are.
    """
    check(by, Permission.APPROVE_FIGURES)
    moves.check_approval(revision)
    seen = revision.version if version is None else version
    with entry(by=by, verb="figures_approved", about=revision) as it:
        stored = moves.check_stands(revision, seen)
        moves.check_approval(stored)
        signature = sign(
            by=by,
            password=password,
            meaning=signing.APPROVED,
            about=stored,
            version=seen,
            content=signing.figures_content(stored),
        )
        old = queries.figures_in_force(stored.edition)
        if old is not None:
            old.state = FiguresRevision.State.SUPERSEDED
            old.save_if_version(old.version, update_fields=["state"])
        stored.state, stored.signature = FiguresRevision.State.IN_FORCE, signature
        stored.approved_at, stored.approved_by = it.at, by
        stored.save_if_version(seen)
    return stored
