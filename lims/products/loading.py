"""Which published specifications and lines of them are missing here, and adding them."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from django.db.models import Max

from lims.methods.models import Characteristic
from lims.products.models import PublishedLine, PublishedSpecification
from lims.products.reference import Row
from lims.record.filled import check_filled
from lims.record.refusals import BadInput


@dataclass
class Missing:
    """The rows to add; lines carry the code of what they belong to."""

    specifications: list[Row] = field(default_factory=list)
    lines: list[tuple[str, Row]] = field(default_factory=list)

    def __len__(self) -> int:
        return len(self.specifications) + len(self.lines)


def missing(data: Iterable[Row]) -> Missing:
    """What the database lacks of the published specifications; what stands is left as it is."""
    codes = set(PublishedSpecification.objects.values_list("code", flat=True))
    stands = set(
        PublishedLine.objects.values_list("specification__code", "characteristic__code")
    )
    known = set(Characteristic.objects.values_list("code", flat=True))
    found = Missing()
    for row in data:
        if row["code"] not in codes:
            found.specifications.append(row)
        for line in row["lines"]:
            _check_known(row["code"], line["characteristic"], known)
            if (row["code"], line["characteristic"]) not in stands:
                found.lines.append((row["code"], line))
    return found


def _check_known(specification: str, code: str, known: set[str]) -> None:
    if code not in known:
        raise BadInput(
            f"{specification} asks for “{code}”, which is no characteristic here: "
            "add the characteristic first.",
            field="characteristic",
        )


def add(rows: Missing) -> int:
    """Save the missing rows, inside the entry that the caller opened."""
    for row in rows.specifications:
        plain = {key: value for key, value in row.items() if key != "lines"}
        made = PublishedSpecification(**plain)
        check_filled(made)
        made.save()
    for code, row in rows.lines:
        _add_line(PublishedSpecification.objects.get(code=code), row)
    return len(rows)


def _add_line(specification: PublishedSpecification, row: Row) -> None:
    plain = {key: value for key, value in row.items() if key != "characteristic"}
    last = specification.lines.aggregate(last=Max("line"))["last"] or 0
    made = PublishedLine(
        specification=specification,
        line=last + 1,
        characteristic=Characteristic.objects.get(code=row["characteristic"]),
        **plain,
    )
    check_filled(made)
    made.save()
