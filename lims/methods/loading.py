"""Which rows of the reference data are missing here, and adding them."""

from dataclasses import dataclass, field

from lims.methods.figures import Figure
from lims.methods.models import (
    Characteristic,
    FiguresRevision,
    Method,
    MethodEdition,
)
from lims.methods.reference import ReferenceData, Row, figures_of
from lims.methods.rules import check_procedure

Place = tuple[str, str]  # designation and edition


@dataclass
class Missing:
    """The rows to add; editions and figures carry the names of what they belong to."""

    characteristics: list[Row] = field(default_factory=list)
    methods: list[Row] = field(default_factory=list)
    editions: list[tuple[str, Row]] = field(default_factory=list)
    figures: list[tuple[Place, list[Row]]] = field(default_factory=list)

    def __len__(self) -> int:
        return (
            len(self.characteristics)
            + len(self.methods)
            + len(self.editions)
            + len(self.figures)
        )


@dataclass(frozen=True)
class _Standing:
    """What the database has, by the names that the reference data uses."""

    characteristics: set[str]
    methods: set[str]
    editions: set[Place]
    with_figures: set[Place]


def missing(data: ReferenceData) -> Missing:
    """What the database lacks of the reference data."""
    here = _standing()
    found = Missing()
    for row in data["characteristics"]:
        if row["code"] not in here.characteristics:
            check_procedure(row["procedure"])
            found.characteristics.append(row)
    for method in data["methods"]:
        if method["designation"] not in here.methods:
            found.methods.append(method)
        for edition in method["editions"]:
            _note_edition(found, here, method["designation"], edition)
    return found


def _note_edition(
    found: Missing, here: _Standing, designation: str, edition: Row
) -> None:
    place = (designation, edition["edition"])
    if place not in here.editions:
        found.editions.append((designation, edition))
    figures = figures_of(edition)
    if figures and place not in here.with_figures:
        found.figures.append((place, figures))


def _standing() -> _Standing:
    editions = set(MethodEdition.objects.values_list("method__designation", "edition"))
    revisions = FiguresRevision.objects.order_by()
    return _Standing(
        characteristics=set(Characteristic.objects.values_list("code", flat=True)),
        methods=set(Method.objects.values_list("designation", flat=True)),
        editions=editions,
        with_figures=set(
            revisions.values_list("edition__method__designation", "edition__edition")
        ),
    )


def add(rows: Missing) -> int:
    """Save the missing rows, inside the entry that the caller opened."""
    for row in rows.characteristics:
        Characteristic(**row).save()
    for row in rows.methods:
        Method(designation=row["designation"], title=row["title"]).save()
    methods = {it.designation: it for it in Method.objects.all()}
    for designation, row in rows.editions:
        plain = {key: value for key, value in row.items() if key != "figures"}
        MethodEdition(method=methods[designation], **plain).save()
    editions = {
        (it.method.designation, it.edition): it
        for it in MethodEdition.objects.select_related("method")
    }
    for place, figures in rows.figures:
        shipped_revision(editions[place], figures).save()
    return len(rows)


def shipped_revision(edition: MethodEdition, figures: list[Row]) -> FiguresRevision:
    """Revision 1, in force as shipped: nobody's signature stands under it."""
    return FiguresRevision(
        edition=edition,
        number=1,
        state=FiguresRevision.State.IN_FORCE,
        figures=[Figure.of(told).told for told in figures],
        is_shipped=True,
    )
