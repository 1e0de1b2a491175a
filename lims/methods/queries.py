"""Questions to the methods: what is measured, by which edition, how well, and who checked the figures."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.db.models import Prefetch, QuerySet

from lims.methods.asked import Asked, reaches
from lims.methods.figures import Figure
from lims.methods.models import (
    Characteristic,
    FigureCheck,
    FiguresRevision,
    Method,
    MethodEdition,
    OwnUncertainty,
)

WORKED_PENETRATION = "worked-penetration"
FROM_MEMORY = MethodEdition.Standing.FROM_MEMORY
State = FiguresRevision.State

Pair = tuple[MethodEdition | None, Characteristic]
Place = tuple[int | None, int]  # edition and characteristic, by their keys


def characteristics() -> QuerySet[Characteristic]:
    """Everything that can be measured, in the order of the bench."""
    return Characteristic.objects.all()


def characteristic(code: str) -> Characteristic:
    """One characteristic by its code; raises Characteristic.DoesNotExist."""
    return Characteristic.objects.get(code=code)


def methods_with_editions() -> QuerySet[Method]:
    """Every method with its editions, their revisions of figures and their checks, in four queries."""
    editions = MethodEdition.objects.select_related("method").prefetch_related(
        Prefetch("figures_revisions", revisions()), "figure_checks"
    )
    return Method.objects.prefetch_related(Prefetch("editions", editions))


def edition(designation: str, name: str) -> MethodEdition:
    """One edition, as in `edition("ASTM D217", "21a")`."""
    return MethodEdition.objects.select_related("method").get(
        method__designation=designation, edition=name
    )


def editions_for(characteristic: Characteristic) -> list[MethodEdition]:
    """The editions that measure a characteristic."""
    return [
        edition
        for edition in MethodEdition.objects.select_related("method")
        if characteristic.code in edition.characteristics
    ]


def revisions() -> QuerySet[FiguresRevision]:
    """Every revision of figures with its signature, newest first."""
    return FiguresRevision.objects.select_related(
        "edition__method", "approved_by", "signature"
    ).order_by("edition", "-number")


def figures_in_force(edition: MethodEdition) -> FiguresRevision | None:
    """The revision of an edition's figures that is in force."""
    return revisions().filter(edition=edition, state=State.IN_FORCE).first()


def figures_draft(edition: MethodEdition) -> FiguresRevision | None:
    """The revision of an edition's figures that is being written."""
    return revisions().filter(edition=edition, state=State.DRAFT).first()


def figures_of(revision: FiguresRevision | None) -> tuple[Figure, ...]:
    """The figures of a revision; none where there is no revision."""
    return tuple(Figure.of(told) for told in revision.figures) if revision else ()


def asked_by(edition: MethodEdition | None, characteristic: Characteristic) -> Asked:
    """What an edition's figures in force ask of a characteristic, in one query."""
    place = (edition.pk if edition else None, characteristic.pk)
    return asked_by_all([(edition, characteristic)])[place]


def asked_by_all(pairs: Iterable[Pair]) -> dict[Place, Asked]:
    """The same for many, by the keys of edition and characteristic, in one query."""
    pairs = list(pairs)
    wanted = {it.pk for it, _ in pairs if it is not None}
    found = dict(
        FiguresRevision.objects.filter(edition__in=wanted, state=State.IN_FORCE)
        .order_by()
        .values_list("edition", "figures")
        if wanted
        else ()
    )
    return {
        (edition.pk if edition else None, row.pk): Asked(
            edition, row, _for(row, found.get(edition.pk, ()) if edition else ())
        )
        for edition, row in pairs
    }


def _for(
    row: Characteristic, figures: Iterable[Mapping[str, str]]
) -> tuple[Figure, ...]:
    return tuple(Figure.of(it) for it in figures if it["characteristic"] == row.code)


def from_memory_unchecked(
    figures: Iterable[Mapping[str, Any]], edition: MethodEdition
) -> list[Figure]:
    """Those figures that rest on memory and that nobody compared, exactly as they are, with the laboratory's own copy; one query."""
    return from_memory_unchecked_all(
        {**figure, "edition_id": edition.pk} for figure in figures
    )


def from_memory_unchecked_all(figures: Iterable[Mapping[str, Any]]) -> list[Figure]:
    """The same for figures of many editions, each naming its own by `edition_id`; one query."""
    recalled = [
        (it["edition_id"], Figure.within(it))
        for it in figures
        if it["standing"] == FROM_MEMORY
    ]
    checked = checked_figures({pk for pk, _ in recalled})
    return [it for pk, it in recalled if it not in checked[pk]]


def checked_figures(editions: Iterable[int]) -> Mapping[int, set[Figure]]:
    """Every figure that somebody compared with the laboratory's own copy, by edition; one query."""
    found: dict[int, set[Figure]] = defaultdict(set)
    wanted = set(editions)
    rows = FigureCheck.objects.filter(edition__in=wanted).order_by() if wanted else ()
    for row in rows:
        found[row.edition_id] |= {Figure.of(it) for it in row.figures}
    return found


def own_uncertainties(
    characteristics: Iterable[Characteristic],
) -> Mapping[int, Sequence[OwnUncertainty]]:
    """What the laboratory stated about its own uncertainty, newest first, by characteristic; one query."""
    found: dict[int, list[OwnUncertainty]] = defaultdict(list)
    rows = OwnUncertainty.objects.filter(
        characteristic__in={it.pk for it in characteristics}
    ).select_related("signature", "stated_by")
    for row in rows.order_by("-number"):
        found[row.characteristic_id].append(row)
    return found


def own_uncertainty(
    characteristic: Characteristic, level: Decimal | None = None
) -> OwnUncertainty | None:
    """What was stated last and holds at the level; without a level, what was stated last."""
    stated = own_uncertainties([characteristic])[characteristic.pk]
    return newest_at(stated, level)


def newest_at(
    stated: Sequence[OwnUncertainty], level: Decimal | None = None
) -> OwnUncertainty | None:
    """The first of these, newest first, that holds at the level."""
    holding = (
        it
        for it in stated
        if level is None or reaches(it.level_from, it.level_to, level)
    )
    return next(holding, None)
