"""What a published specification demands, line by line; of several parts that must all be met the stricter."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from lims.methods import queries as methods
from lims.methods.models import Characteristic, MethodEdition
from lims.methods.rules import read_number
from lims.products.lines import Line, scale_of
from lims.products.models import PublishedLine, PublishedSpecification

# Of two standings the weaker is told.
WEAKEST_FIRST = ("from memory", "common practice", "derived", "published")
KINDS = Characteristic.Kind
MINUS = "\u2212"


@dataclass(frozen=True)
class Demand:
    """What is demanded of one characteristic, and where it stands."""

    characteristic: Characteristic
    lower: str
    upper: str
    must: str
    conditions: str  # as the standard states them
    told: str  # each part with its limits
    source: str
    standing: str
    checked_by: str

    @property
    def origin(self) -> str:
        """Where a copied line comes from, kept with it."""
        return f"{self.told}; {self.source}"[:300]


def demands_of(published: PublishedSpecification) -> tuple[Demand, ...]:
    """The demands of a published specification, in the order of its lines and its parts'."""
    found: dict[int, Demand] = {}
    for line in _lines_of(published):
        demand = _demand(line)
        other = found.get(line.characteristic_id)
        found[line.characteristic_id] = _stricter(other, demand) if other else demand
    return tuple(found.values())


def parts_of(published: PublishedSpecification) -> list[PublishedSpecification]:
    """The published specifications that must all be met, in the order named."""
    found = {
        it.code: it
        for it in PublishedSpecification.objects.filter(code__in=published.parts)
    }
    return [found[code] for code in published.parts if code in found]


def _lines_of(published: PublishedSpecification) -> Iterable[PublishedLine]:
    for one in (published, *parts_of(published)):
        yield from one.lines.select_related("characteristic", "specification")


def _demand(line: PublishedLine) -> Demand:
    conditions = f" ({line.conditions})" if line.conditions else ""
    return Demand(
        characteristic=line.characteristic,
        lower=line.lower,
        upper=line.upper,
        must=line.must,
        conditions=line.conditions,
        told=f"{line.specification.code}, {limits_of(line)}{conditions}",
        source=line.source,
        standing=line.standing,
        checked_by=line.checked_by,
    )


def limits_of(line: PublishedLine) -> str:
    """What a published line asks, in words."""
    if line.must:
        return line.must
    if line.characteristic.kind == KINDS.RATING:
        return f"{line.upper} or better"
    lower, upper = (it.replace("-", MINUS) for it in (line.lower, line.upper))
    if lower and upper:
        return f"{lower} to {upper}"
    return f"at most {upper}" if upper else f"at least {lower}"


def _stricter(first: Demand, other: Demand) -> Demand:
    sources = dict.fromkeys((first.source, other.source))
    return replace(
        first,
        lower=_higher(first.lower, other.lower),
        upper=_nearer(first, other),
        must="; ".join(dict.fromkeys(it for it in (first.must, other.must) if it)),
        told=f"{first.told}; {other.told}",
        source="; ".join(sources),
        standing=min(first.standing, other.standing, key=WEAKEST_FIRST.index),
        checked_by=first.checked_by if first.checked_by == other.checked_by else "",
    )


def _higher(first: str, other: str) -> str:
    if not first or not other:
        return first or other
    return max(first, other, key=lambda text: read_number(text, "lower").value)


def _nearer(first: Demand, other: Demand) -> str:
    """The upper limit that lets less through; of a rating the better mark."""
    if not first.upper or not other.upper:
        return first.upper or other.upper
    if first.characteristic.kind == KINDS.RATING:
        return min(first.upper, other.upper, key=scale_of(first.characteristic).index)
    return min(
        first.upper, other.upper, key=lambda text: read_number(text, "upper").value
    )


def line_of(demand: Demand, *, comparing: str, rule: str) -> Line:
    """The line that a draft begins with; the plant owns it from there."""
    return Line(
        characteristic=demand.characteristic,
        edition=edition_for(demand),
        lower=demand.lower,
        upper=demand.upper,
        must=demand.must,
        comparing=comparing,
        rule=rule,
    )


def edition_for(demand: Demand) -> MethodEdition | None:
    """The newest edition of the method that the standard names, else the newest that measures it."""
    editions = methods.editions_for(demand.characteristic)
    named = [it for it in editions if it.method.designation in demand.conditions]
    return next(reversed(named or editions), None)
