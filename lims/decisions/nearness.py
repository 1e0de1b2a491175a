"""How near a met value stands to where it would no longer be met: what is decided on first stands first."""

from decimal import Decimal

from lims.decisions.rulings import ruling_of
from lims.decisions.verdicts import Line
from lims.methods.models import Characteristic
from lims.products.models import Requirement
from specs.numbers import Number

FAR = Decimal(1)


def nearness(line: Line) -> Decimal:
    """The way to the nearest end of what the rule accepts, as a share of its width: 0 at the end, 1 where nothing can be said."""
    kind = line.requirement.characteristic.kind
    if line.result is None or kind != Characteristic.Kind.NUMBER:
        return FAR
    value = Number.stored(line.result.value).value
    lower, upper = _ends(line.requirement)
    distances = [value - lower] if lower is not None else []
    distances += [upper - value] if upper is not None else []
    if not distances:
        return FAR
    width = (
        upper - lower
        if upper is not None and lower is not None
        else abs(upper if upper is not None else lower or FAR)
    )
    return min(distances) / width if width else FAR


def _ends(requirement: Requirement) -> tuple[Decimal | None, Decimal | None]:
    ruling = ruling_of(requirement)
    if ruling is not None:
        return ruling.zone.lower, ruling.zone.upper
    lower, upper = requirement.lower, requirement.upper.lstrip("+")
    return (
        Number.stored(lower).value if lower else None,
        Number.stored(upper).value if upper else None,
    )
