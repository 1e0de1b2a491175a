"""The figures in force as they are offered to whoever compared them with the laboratory's own copy."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.forms import Form
from django.forms.boundfield import BoundWidget
from django.utils.safestring import SafeString

from lims.methods import queries
from lims.methods.figures import Figure
from lims.methods.models import MethodEdition
from lims.record.refusals import ChangedSince
from lims.screens.methods import book, presenting
from lims.screens.methods.book import Chapter, FigureRow


@dataclass(frozen=True)
class Tick:
    """One figure with its box."""

    box: SafeString
    label_for: str
    words: str
    row: FigureRow


@dataclass(frozen=True)
class Group:
    """The boxes of one characteristic."""

    name: str
    ticks: list[Tick]


@dataclass(frozen=True)
class Page:
    """An edition's figures in force, and which revision they are of."""

    edition: MethodEdition
    chapters: list[Chapter]
    seen: int  # the revision's key; nought where none is in force

    @property
    def choices(self) -> list[tuple[str, str]]:
        """Key and words of each figure."""
        return [
            (row.key, f"{it.characteristic.in_full}: {_words(row)}")
            for it in self.chapters
            for row in it.rows
        ]

    def chosen(self, keys: Iterable[str], *, every: bool) -> list[Figure]:
        """The figures that were ticked, or all of them."""
        keys = set(keys)
        rows = [row for it in self.chapters for row in it.rows]
        return [row.figure for row in rows if every or row.key in keys]


def _words(row: FigureRow) -> str:
    level = f" {row.level}" if row.level else ""
    return f"{row.what}{level}, {row.value}"


def page(edition: MethodEdition) -> Page:
    in_force = queries.figures_in_force(edition)
    found = book.chapters(
        edition,
        queries.figures_of(in_force),
        edition.figure_checks.all(),
        presenting.known(),
    )
    return Page(edition, found, in_force.pk if in_force else 0)


def check_seen(now: Page, seen: int) -> None:
    """Refuse saying that figures were compared which came into force after the page was opened."""
    if seen != now.seen:
        raise ChangedSince(
            f"The figures of {now.edition} were changed by somebody else since you opened "
            "them. Look at them as they are now, then decide again."
        )


def told(edition: MethodEdition, now: Page, form: Form) -> dict[str, Any]:
    """The page; a form that came too late may be sent again from the figures as they are now."""
    late = form.is_bound and str(form["seen"].value()) != str(now.seen)
    if late:
        data: Any = form.data.copy()  # type: ignore[attr-defined]  # a QueryDict
        data["seen"] = str(now.seen)
        form.data = data
    return {
        "edition": edition,
        "late": late,
        "has_figures": bool(now.choices),
        "groups": _groups(now, form),
        "origins": book.origins(now.chapters),
    }


def _groups(now: Page, form: Form) -> list[Group]:
    """The boxes by characteristic, so that no name is said at each of them."""
    boxes = {str(it.data["value"]): it for it in form["figures"].subwidgets}
    return [
        Group(
            it.characteristic.in_full,
            [_tick(boxes[row.key], row) for row in it.rows],
        )
        for it in now.chapters
        if it.rows
    ]


def _tick(box: BoundWidget, row: FigureRow) -> Tick:
    return Tick(box.tag(), box.id_for_label, _words(row), row)
