"""Whether a customer's limits stay inside the product's own. The limits are compared, not the rules: a customer may agree another rule."""

from collections.abc import Iterable

from lims.methods.rules import read_number
from lims.products.lines import scale_of
from lims.products.models import Requirement, Revision
from lims.record.refusals import WrongMove


def check_inside_own(revision: Revision, own: Revision | None) -> None:
    """Refuse a customer's revision while the product has none of its own in force, or one wider than that."""
    if own is None:
        raise WrongMove(
            f"{revision.specification.product} has no specification of its own in "
            "force: approve that one first, then the customer's."
        )
    limits = limits_of(own)
    for line in limits_of(revision).values():
        check_line_inside(line, limits.get(line.characteristic.code))


def check_customers_inside(own: Revision, customers: Iterable[Revision]) -> None:
    """Refuse a product's revision that would leave a customer's in force wider than it."""
    limits = limits_of(own)
    for revision in customers:
        for line in limits_of(revision).values():
            if is_wider(line, limits.get(line.characteristic.code)):
                raise WrongMove(
                    f"Revision {revision.number} of {revision.specification} would be "
                    f"wider than this in line {line.line}, {_in_words(line)}: approve a "
                    "tighter revision for that customer first."
                )


def check_line_inside(line: Requirement, own: Requirement | None) -> None:
    """Refuse one line of a customer that allows what the product's own line does not."""
    if is_wider(line, own):
        raise WrongMove(
            f"Line {line.line}, {_in_words(line)}, is wider than the product's own "
            f"limits ({own.limits if own else ''}): tighten it, or change the product's "
            "specification first."
        )


def is_wider(line: Requirement, own: Requirement | None) -> bool:
    """Whether a line allows what the product's own line of that characteristic does not."""
    if own is None or line.kind != own.kind or line.kind != Requirement.Kind.LIMIT:
        return False
    kinds = line.characteristic.Kind
    if line.characteristic.kind in (kinds.WORDS, kinds.FINDING):
        return False  # words are compared by people; what must pass is asked alike
    if line.characteristic.kind == kinds.RATING:
        scale = scale_of(line.characteristic)
        return scale.index(line.upper) > scale.index(own.upper)
    return _reaches_below(line.lower, own.lower) or _reaches_above(
        line.upper, own.upper
    )


def own_limit(own: Revision | None, line: Requirement) -> Requirement | None:
    """The limit that the product's own revision sets for a line's characteristic."""
    return limits_of(own).get(line.characteristic.code) if own else None


def _reaches_below(lower: str, own: str) -> bool:
    if not own:
        return False
    return (
        not lower or read_number(lower, "lower").value < read_number(own, "lower").value
    )


def _reaches_above(upper: str, own: str) -> bool:
    if not own:
        return False
    return (
        not upper or read_number(upper, "upper").value > read_number(own, "upper").value
    )


def limits_of(revision: Revision) -> dict[str, Requirement]:
    """The limits of a revision by the code of their characteristic, in one query."""
    rows = revision.requirements.select_related("characteristic")
    limits = rows.filter(kind=Requirement.Kind.LIMIT)
    return {row.characteristic.code: row for row in limits}


def _in_words(line: Requirement) -> str:
    return f"{line.characteristic.in_full} ({line.limits})"
