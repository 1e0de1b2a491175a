"""Published specifications: loading them, copying their lines into a draft, and noting that somebody checked where a line comes from."""

from collections.abc import Sequence
from dataclasses import dataclass

from lims.people.models import Person
from lims.people.permissions import Permission, check
from lims.products import copying, lines, loading, queries, rules, widths
from lims.products.copying import Demand
from lims.products.models import PublishedSpecification, Requirement, Revision
from lims.products.reference import About, Row
from lims.record.filled import check_filled
from lims.record.gate import entry
from lims.record.refusals import Refusal, WrongMove


@dataclass(frozen=True)
class Copied:
    """The lines that were copied into a draft, and why others were left."""

    lines: tuple[Requirement, ...]
    left: tuple[str, ...]


def load_published(*, data: Sequence[Row], by: Person | None) -> int:
    """Add the published specifications that are missing and count the rows; what stands is left as it is.

    `by=None` is the program itself, when it starts a new database.
    """
    if by is not None:
        check(by, Permission.DRAFT_SPECIFICATIONS)
    if not loading.missing(data):
        return 0
    with entry(by=by, verb="published_loaded", about=About()):
        return loading.add(loading.missing(data))


def copy_published_lines(
    *,
    revision: Revision,
    published: PublishedSpecification,
    comparing: str,
    rule: str,
    version: int | None = None,
    by: Person,
) -> Copied:
    """Begin a draft's lines from a published specification; the plant owns them from there.

    A characteristic for which the draft has a limit keeps it, and a line that cannot
    stand is left; each is told. Of several parts the stricter limit is copied.
    """
    check(by, Permission.DRAFT_SPECIFICATIONS)
    rules.check_is_draft(revision)
    rules.check_can_copy_with(comparing, rule)
    made, left = _drawn_up(revision, published, comparing, rule)
    if not made:
        raise WrongMove(
            f"No line of {published} can be copied into this draft. {' '.join(left)}"
        )
    with entry(by=by, verb="published_lines_copied", about=revision):
        revision.save_if_version(revision.version if version is None else version)
        for row in made:
            row.save()
    return Copied(tuple(made), tuple(left))


def _drawn_up(
    revision: Revision, published: PublishedSpecification, comparing: str, rule: str
) -> tuple[list[Requirement], list[str]]:
    stands = {
        row.characteristic_id: row
        for row in revision.requirements.filter(kind=Requirement.Kind.LIMIT)
    }
    last = max(revision.requirements.values_list("line", flat=True), default=0)
    own = _own_limits(revision)
    made: list[Requirement] = []
    left: list[str] = []
    for demand in copying.demands_of(published):
        name = demand.characteristic.in_full
        there = stands.get(demand.characteristic.pk)
        if there is not None:
            left.append(
                f"“{name}” has a limit already, line {there.line}: it stays. Compare it "
                f"with what is published: {demand.told}."
            )
            continue
        row = Requirement(revision=revision, line=last + len(made) + 1)
        try:
            _fill(row, demand, copying.line_of(demand, comparing=comparing, rule=rule))
            widths.check_line_inside(row, own.get(demand.characteristic.code))
            made.append(row)
        except Refusal as refusal:
            left.append(f"“{name}” is left out: {refusal.sentence}")
    return made, left


def _own_limits(revision: Revision) -> dict[str, Requirement]:
    """What a customer's lines must lie inside; nothing for the product's own."""
    specification = revision.specification
    if specification.customer is None:
        return {}
    own = queries.in_force(specification.product)
    return widths.limits_of(own) if own else {}


def _fill(row: Requirement, demand: Demand, line: lines.Line) -> None:
    lines.fill(row, line)
    row.origin, row.origin_standing = demand.origin, demand.standing
    row.origin_checked_by = demand.checked_by


def check_origin(
    *,
    requirement: Requirement,
    checked_by: str,
    version: int | None = None,
    by: Person,
) -> Requirement:
    """Note that a named person compared a draft's line with the laboratory's own copy of where it comes from."""
    check(by, Permission.DRAFT_SPECIFICATIONS)
    revision = requirement.revision
    rules.check_is_draft(revision)
    rules.check_origin(requirement, checked_by)
    requirement.origin_checked_by = checked_by.strip()
    check_filled(requirement)
    with entry(by=by, verb="origin_checked", about=revision):
        revision.save_if_version(revision.version if version is None else version)
        requirement.save()
    return requirement
