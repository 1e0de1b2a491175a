"""Which rows of the reference data are missing here, and adding them."""

from dataclasses import dataclass, field
from typing import Any

from lims.methods.models import Characteristic, Method, MethodEdition, Precision
from lims.methods.reference import ReferenceData
from lims.methods.rules import check_procedure

Row = dict[str, Any]


@dataclass
class Missing:
    """The rows to add; editions and precisions carry the names of what they belong to."""

    characteristics: list[Row] = field(default_factory=list)
    methods: list[Row] = field(default_factory=list)
    editions: list[tuple[str, Row]] = field(default_factory=list)
    precisions: list[tuple[str, str, Row]] = field(default_factory=list)

    def __len__(self) -> int:
        return (
            len(self.characteristics)
            + len(self.methods)
            + len(self.editions)
            + len(self.precisions)
        )


@dataclass(frozen=True)
class _Standing:
    """What the database has, by the names that the reference data uses."""

    characteristics: set[str]
    methods: set[str]
    editions: set[tuple[str, str]]
    checked: set[tuple[str, str]]
    precisions: set[tuple[str, str, str, str, str]]


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
    if place in here.checked:
        return
    for row in edition["precisions"]:
        levels = (row["characteristic"], row["level_from"], row["level_to"])
        if (*place, *levels) not in here.precisions:
            found.precisions.append((*place, row))


def _standing() -> _Standing:
    editions = MethodEdition.objects.select_related("method")
    precisions = Precision.objects.select_related("edition__method", "characteristic")
    return _Standing(
        characteristics=set(Characteristic.objects.values_list("code", flat=True)),
        methods=set(Method.objects.values_list("designation", flat=True)),
        editions={(row.method.designation, row.edition) for row in editions},
        checked={
            (row.method.designation, row.edition) for row in editions if row.checked_on
        },
        precisions={
            (
                row.edition.method.designation,
                row.edition.edition,
                row.characteristic.code,
                row.level_from,
                row.level_to,
            )
            for row in precisions
        },
    )


def add(rows: Missing) -> int:
    """Save the missing rows, inside the entry that the caller opened."""
    for row in rows.characteristics:
        Characteristic(**row).save()
    for row in rows.methods:
        Method(designation=row["designation"], title=row["title"]).save()
    for designation, row in rows.editions:
        plain = {key: value for key, value in row.items() if key != "precisions"}
        method = Method.objects.get(designation=designation)
        MethodEdition(method=method, **plain).save()
    for designation, edition, row in rows.precisions:
        plain = {key: value for key, value in row.items() if key != "characteristic"}
        Precision(
            edition=MethodEdition.objects.get(
                method__designation=designation, edition=edition
            ),
            characteristic=Characteristic.objects.get(code=row["characteristic"]),
            **plain,
        ).save()
    return len(rows)
