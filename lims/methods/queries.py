"""Questions to the methods: what is measured, by which edition, how well, and who checked the figures."""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from django.db.models import QuerySet

from lims.methods.models import Characteristic, Method, MethodEdition, Precision
from lims.methods.rules import read_number
from specs.numbers import Number

WORKED_PENETRATION = "worked-penetration"


def characteristics() -> QuerySet[Characteristic]:
    """Everything that can be measured, in the order of the bench."""
    return Characteristic.objects.all()


def characteristic(code: str) -> Characteristic:
    """One characteristic by its code; raises Characteristic.DoesNotExist."""
    return Characteristic.objects.get(code=code)


def methods_with_editions() -> QuerySet[Method]:
    """Every method with its editions and their figures, in four queries."""
    return Method.objects.prefetch_related("editions__precisions__characteristic")


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


def precision_at(
    edition: MethodEdition | None, characteristic: Characteristic, level: Number
) -> Precision | None:
    """The figures that an edition states at a level, or None where it states none."""
    if edition is None:
        return None
    stated = edition.precisions.filter(characteristic=characteristic)
    return next(_reaching(stated, level), None)


def _reaching(stated: Iterable[Precision], level: Number) -> Iterator[Precision]:
    for row in stated:
        above = not row.level_from or _bound(row.level_from) <= level.value
        below = not row.level_to or level.value <= _bound(row.level_to)
        if above and below:
            yield row


def _bound(text: str) -> Decimal:
    return read_number(text, "level").value
