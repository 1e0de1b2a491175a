"""A lot against its customers' specifications: the lines that decide, each by its own rule, and what else is from memory there."""

from dataclasses import dataclass

from lims.decisions.queries import deciding_line
from lims.decisions.review import Review
from lims.decisions.verdicts import Held
from lims.screens.decisions.lines import Frozen, Last, Row, row_of


@dataclass(frozen=True)
class Other:
    """The lot against a customer's specification."""

    held: Held
    row: Row | None
    blocking: tuple[Row, ...]
    rules: tuple[
        str, ...
    ]  # of its lines, where they accept from other ends than the limits
    from_memory: tuple[str, ...]  # beyond what the plant's own lines tell


def others(review: Review, last: Last, frozen: Frozen) -> list[Other]:
    """The customers' specifications that the lot is held against."""
    own = {told for row in _rows(review.own, review) for told in row.from_memory}
    found = []
    for each in review.held:
        if each.is_own:
            continue
        rows = _rows(each, review, last, frozen)
        by_line = {row.requirement.pk: row for row in rows}
        line = deciding_line(each)
        recalled = (told for row in rows for told in row.from_memory)
        found.append(
            Other(
                held=each,
                row=by_line[line.requirement.pk] if line else None,
                blocking=tuple(by_line[it.requirement.pk] for it in each.blocking),
                rules=tuple(f"{row.name}: {row.rule}" for row in rows if row.rule),
                from_memory=tuple(
                    dict.fromkeys(it for it in recalled if it not in own)
                ),
            )
        )
    return found


def _rows(
    held: Held | None,
    review: Review,
    last: Last | None = None,
    frozen: Frozen | None = None,
) -> list[Row]:
    lines = held.lines if held else ()
    return [row_of(line, last, frozen, review.grounds) for line in lines]
